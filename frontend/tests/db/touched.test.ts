import { expect, test } from "vitest";
import { touched } from "../../src/db/touched";

test("only the fields that differ are left, whatever the order of a value's parts", () => {
  const before = { name: "North bed", shape: { type: "rectangle", width_cm: 120, length_cm: 400 }, days: [0, 1], note: "" };
  const same = { shape: { length_cm: 400, width_cm: 120, type: "rectangle" }, days: [0, 1], note: "" };
  expect(touched(before, same)).toEqual({});
  expect(touched(before, { ...same, name: "South bed", note: "sand" })).toEqual({ name: "South bed", note: "sand" });
  expect(touched(before, { days: [1, 0] })).toEqual({ days: [1, 0] });
});

test("a field the record does not have yet is a change, and null is not an empty text", () => {
  expect(touched({}, { rows: null })).toEqual({ rows: null });
  expect(touched({ depth_cm: null, note: "" }, { depth_cm: null, note: null })).toEqual({ note: null });
});
