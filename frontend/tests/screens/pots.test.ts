import { expect, test } from "vitest";
import { growingIn, inGround } from "../../src/capture/growing.ts";
import { marksOf } from "../../src/components/marks.ts";
import { type GallRating, type Shown, withDefaults } from "../../src/db/kinds.ts";
import { changesOf, formOf, wrongGalls } from "../../src/screens/Check/more.ts";
import { potMarks } from "../../src/screens/Check/pots.ts";

const pots = { n_pots: 2, blank_pot: 2, soil_cm3_per_pot: 500, soil_sample: null };

test("pots are named as pots, and the blank one says so", () => {
  const marks = potMarks(marksOf([[10, 10], [20, 10]], [], () => true), pots);
  expect(marks.map(({ label }) => label)).toEqual(["Pot 1, not rated", "Blank pot 2, not rated"]);
  expect(marks.map(({ key }) => key)).toEqual(["p1", "p2"]);
});

function planting(id: string, more: object): Shown<"planting"> {
  const doc = withDefaults("planting", { bed: "b", crop: "Cucumber", grown: { from_on: "2031-05-01", to_on: null }, ...more });
  return { id, kind: "planting", garden: "g", doc, seq: 1, unsent: false, parked: false, by: "" };
}

test("a pot test is not what grows in the bed", () => {
  const both = [planting("in-ground", {}), planting("in-pots", { pots })];
  expect(inGround(both).map(({ id }) => id)).toEqual(["in-ground"]);
  expect(growingIn("b", both, "2031-06-01")).toBe("in-ground");
});

test("the galls of a pot are kept as counted, none being nought, and half a gall is not kept", () => {
  const reading = { state: "rated", grade: 1, gall_scale: "pct10", trace_only: false } as const;
  const doc = withDefaults("gall_rating", { root_check: "c", place: { x_cm: 1, y_cm: 1, plant: 1 }, reading, rated_at: "2031-06-01T10:00:00Z" }) as GallRating;
  expect(changesOf(doc, { ...formOf(doc), galls: 0 })).toEqual({ n_galls: 0 });
  expect(wrongGalls({ ...formOf(doc), galls: 2.5 })).toBe(true);
  expect(changesOf(doc, { ...formOf(doc), galls: 2.5 })).toEqual({});
  expect(changesOf(doc, formOf(doc))).toEqual({});
});
