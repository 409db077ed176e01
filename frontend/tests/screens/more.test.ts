import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import { changesOf, formOf } from "../../src/screens/Check/more.ts";

const reading = { state: "rated", grade: 3, gall_scale: "pct10", trace_only: false } as const;
const rated = withDefaults("gall_rating", {
  root_check: "c",
  place: { x_cm: 1, y_cm: 1, plant: 1 },
  reading,
  rated_at: "2026-08-01T08:00:00Z",
  note: "by the path",
  produce_damage: { n_examined: 10, n_damaged: 2, signs: "warts" },
});

test("what was not touched does not travel", () => {
  expect(changesOf(rated, formOf(rated))).toEqual({});
  expect(changesOf(rated, { ...formOf(rated), note: " smelled rotten " })).toEqual({ note: "smelled rotten" });
});

test("numbers that cannot be are held back, and the rest is kept", () => {
  const form = { ...formOf(rated), damaged: 11, note: "smelled rotten", rot: 140 };
  expect(changesOf(rated, form)).toEqual({ note: "smelled rotten", root_rot_pct: 100 });
});

test("a plant without a gall is never a trace", () => {
  const none = { ...rated, reading: { ...reading, grade: 0 } };
  expect(changesOf(none, { ...formOf(none), trace: true })).toEqual({});
  expect(changesOf(rated, { ...formOf(rated), trace: true }).reading?.trace_only).toBe(true);
});
