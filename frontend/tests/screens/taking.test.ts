import { expect, test } from "vitest";
import { type Shown, withDefaults } from "../../src/db/kinds.ts";
import type { PlanTold } from "../../src/db/told.ts";
import { checkSign } from "../../src/capture/code.ts";
import { bagsFor } from "../../src/screens/SamplePlan/beginning.ts";
import { depthFrom, depthsToPick } from "../../src/screens/Take/depths.ts";
import { stepOf } from "../../src/screens/Take/steps.ts";
import { togetherWith } from "../../src/screens/Take/together.ts";

const fresh = withDefaults("soil_sample", { bed: "b", code: "K7M2H", purpose: "predict" });
const plan: PlanTold = {
  why: "diagnose",
  window: { from_on: null, to_on: null },
  n_cores: 2,
  cores_cm: [[20, 30], [40.4, 90]],
  depth: { from_cm: 5, to_cm: 25 },
  ask_cm3: 250,
  ask_if_poor_cm3: 420,
  level: 10,
  crop: "",
  lines: [],
};
const ground = { garden: "g", bed: "b", planting: "p", lab: "l" };

test("one bag of the whole bed takes the plan's places, volume and reason along", () => {
  const [bag, ...more] = bagsFor(plan, ground, "whole");
  expect(more).toEqual([]);
  expect(bag?.set).toMatchObject({ cores_planned: [[20, 30], [40, 90]], extract_cm3_asked: 250, purpose: "diagnose", planting: "p", lab_profile: "l", good_or_poor: null });
  expect(bag?.set).not.toHaveProperty("lifted_at");
});

test("a pair is two bags with codes of their own, the poor spot first, without the whole bed's places", () => {
  const bags = bagsFor(plan, ground, "pair");
  expect(bags.map(({ set }) => set["good_or_poor"])).toEqual(["poor_spot", "good_spot"]);
  expect(bags.every(({ set }) => (set["cores_planned"] as []).length === 0)).toBe(true);
  const codes = bags.map(({ set }) => String(set["code"]));
  expect(codes.every((code) => checkSign(code.slice(0, 4)) === code[4])).toBe(true);
  expect(new Set(bags.map(({ id }) => id)).size).toBe(2);
});

test("who comes back goes on where the answers end; warmth and photo may be left out", () => {
  expect(stepOf(null, fresh)).toBe("walk");
  expect(stepOf(null, { ...fresh, cores_planned: [[1, 1], [2, 2]], core_places: [[1, 1]], n_cores: 1 })).toBe("walk");
  const walked = { ...fresh, n_cores: 12 };
  expect(stepOf(null, walked)).toBe("deep");
  const deep = { ...walked, depth: { from_cm: 5, to_cm: 25 } };
  expect(stepOf(null, deep)).toBe("feel");
  expect(stepOf(null, { ...deep, moisture: "wet" })).toBe("bag");
  expect(stepOf(null, { ...deep, moisture: "wet", packed_at: "2031-08-03T10:00:00Z" })).toBe("parcel");
  expect(stepOf("photo", fresh)).toBe("photo");
  expect(stepOf("nowhere", fresh)).toBe("walk");
});

test("the planned layer is offered first and once, a stored one of one's own stays among them", () => {
  const layers = depthsToPick({ from_cm: 0, to_cm: 20 }, { from_cm: 7, to_cm: 22 });
  expect(layers[0]).toMatchObject({ key: "0-20", planned: true });
  expect(layers.filter(({ key }) => key === "0-20")).toHaveLength(1);
  expect(layers.at(-1)?.key).toBe("7-22");
});

test("two boxes make a layer only when the lower one is deeper", () => {
  expect(depthFrom(null, 20)).toEqual({ from_cm: 0, to_cm: 20 });
  expect(depthFrom(20, 20)).toBeNull();
  expect(depthFrom(5, null)).toBeNull();
  expect(depthFrom(5, 201)).toBeNull();
});

const shown = (id: string, doc: object) => ({ id, kind: "soil_sample", garden: "g", doc: { ...fresh, ...doc }, seq: 1, unsent: false, parked: false, by: "" }) as Shown<"soil_sample">;

test("bags for one lab that have not left make one parcel", () => {
  const mine = shown("1", { lab_profile: "l" });
  const others = [shown("2", { lab_profile: "l" }), shown("3", { lab_profile: "m" }), shown("4", { lab_profile: "l", parcel: { sent_on: "2031-08-04", arrived_on: null } }), shown("5", { lab_profile: "l", handed_over: { at: "2031-08-04T09:00:00Z", to: "" } })];
  expect(togetherWith(mine, [mine, ...others]).map(({ id }) => id)).toEqual(["1", "2"]);
  const without = shown("1", { lab_profile: null });
  expect(togetherWith(without, [without, shown("2", { lab_profile: null })]).map(({ id }) => id)).toEqual(["1"]);
});
