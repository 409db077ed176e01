import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import type { Said, SampleTold } from "../../src/db/told.ts";
import { handlingAt, isOverdue, marked, nextStop, wayOf } from "../../src/screens/SampleForm/way.ts";

const fresh = withDefaults("soil_sample", { bed: "b", code: "K7M2H", purpose: "predict" });
const line = { code: "x", words: "", how_sure: "", because: [], settle: [], by: null, sources: [], assumptions: [] } satisfies Said;
const told: SampleTold = {
  soil_sample: "s",
  bag: "K7M2-H",
  step: "packed",
  steps: [
    { step: "lifted", at: "2031-08-03T09:20:00+00:00", on: null, after: "" },
    { step: "packed", at: "2031-08-03T10:05:00+00:00", on: null, after: "45 minutes after lifting" },
  ],
  handling: [
    { from_at: "2031-08-03T09:20:00+00:00", grade: "A", line, help: "Pack it." },
    { from_at: "2031-08-05T09:20:00+00:00", grade: "B", line, help: "Send it today." },
  ],
  overdue: { from_on: "2031-09-01", line },
};

test("each stop stands with the hour of the record, and with words only about that hour", () => {
  const doc = { ...fresh, lifted_at: "2031-08-03T09:20:00Z", packed_at: "2031-08-03T10:05:00Z" };
  expect(wayOf(doc, null, told)[1]).toMatchObject({ step: "packed", after: "45 minutes after lifting" });
  const corrected = { ...doc, packed_at: "2031-08-03T11:00:00Z" };
  expect(wayOf(corrected, null, told)[1]).toMatchObject({ at: "2031-08-03T11:00:00Z", after: "" });
});

test("what is asked for next comes after the last that happened", () => {
  expect(nextStop(wayOf(fresh, null))).toBe("lifted");
  expect(nextStop(wayOf({ ...fresh, lifted_at: "2031-08-03T09:20:00Z" }, null))).toBe("packed");
  expect(nextStop(wayOf({ ...fresh, parcel: { sent_on: "2031-08-04", arrived_on: "2031-08-05" } }, null))).toBe("extracted");
  expect(nextStop(wayOf(fresh, "2031-08-20"))).toBeNull();
});

test("handing over notes the hour and the day it left, and keeps a day noted before", () => {
  const [now, today] = ["2031-08-04T15:10:00Z", "2031-08-04"];
  expect(marked("handed_over", fresh, now, today)).toEqual({ handed_over: { at: now, to: "" }, parcel: { sent_on: today, arrived_on: null } });
  const sent = { ...fresh, parcel: { sent_on: "2031-08-03", arrived_on: null } };
  expect(marked("handed_over", sent, now, today).parcel).toEqual({ sent_on: "2031-08-03", arrived_on: null });
  expect(marked("received", sent, now, today)).toEqual({ parcel: { sent_on: "2031-08-03", arrived_on: today } });
});

test("handling grows worse as its moments come, whatever way the moments are written", () => {
  expect(handlingAt(told, "2031-08-03T09:00:00Z")).toBeNull();
  expect(handlingAt(told, "2031-08-03T09:20:00Z")?.grade).toBe("A");
  expect(handlingAt(told, "2031-08-05T09:20:00Z")?.grade).toBe("B");
  expect(handlingAt(undefined, "2031-08-05T09:20:00Z")).toBeNull();
});

test("a report is missed from its day on", () => {
  expect(isOverdue(told, "2031-08-31")).toBe(false);
  expect(isOverdue(told, "2031-09-01")).toBe(true);
  expect(isOverdue({ ...told, overdue: null }, "2031-09-01")).toBe(false);
});
