import { expect, test } from "vitest";
import { drawn, endOf } from "../../src/components/dots.ts";
import type { SeriesTold } from "../../src/db/told.ts";

const point = { assay_report: "r", on: "2031-08-20", value: null, low: null, high: null, bound: null };
const series = (...points: SeriesTold["points"]): SeriesTold => ({ key: "k", lab: "", method: "", points });

test("one scale holds the widest range, the bound and the published levels", () => {
  expect(endOf([series({ ...point, value: 40, low: 16, high: 130 }), series({ ...point, bound: 12 })], null)).toBe(200);
  expect(endOf([series({ ...point, bound: 12 })], { low: 4, high: 400 })).toBe(500);
  expect(endOf([series(point)], null)).toBe(1);
});

test("none recovered is an open sign up to what there may be, never a dot at nought", () => {
  expect(drawn({ ...point, bound: 12 })).toEqual({ kind: "open", at: 12, from: 0, to: 12 });
  expect(drawn({ ...point, value: 40, low: 16, high: 130 })).toEqual({ kind: "dot", at: 40, from: 16, to: 130 });
  expect(drawn(point).kind).toBe("none");
});
