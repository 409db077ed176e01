import { expect, test } from "vitest";
import { type Bed, withDefaults } from "../../src/db/kinds.ts";
import { keyOf, matching } from "../../src/components/crops.ts";
import { complaints, entryOf, firstRows, type PlantingEntry, placesThatFit, setOf } from "../../src/screens/PlantingForm/plantingforming.ts";

const bed: Bed = withDefaults("bed", { name: "A", shape: { type: "rectangle", width_cm: 120, length_cm: 400 } });
const blank: PlantingEntry = {
  crop: "Tomato", crop_key: "tomato", cultivar: "", resistance_code: "", from_on: "2031-05-03", to_on: "",
  n_rows: null, row_spacing_cm: null, plant_spacing_cm: null, n_plants: null, draws: true, note: "",
};
const entry = (set: Partial<PlantingEntry> = {}): PlantingEntry => ({ ...blank, ...firstRows(bed, "metric"), ...set });
const none = { crop: "", from: "", to: "", places: "" };

test("a new planting starts with rows that fit its bed", () => {
  expect(firstRows(bed, "metric")).toEqual({ n_rows: 2, row_spacing_cm: 50, plant_spacing_cm: 50 });
  const plants = placesThatFit(entry(), bed);
  expect(plants).toHaveLength(16);
  expect(plants.every(([x, y]) => x > 0 && x < 120 && y > 0 && y < 400)).toBe(true);
  expect(complaints(entry(), plants)).toEqual(none);
});

test("rows that cannot be are told, and nothing is drawn for them", () => {
  for (const wrong of [{ n_rows: 0 }, { n_rows: 2.5 }, { n_rows: 61 }, { row_spacing_cm: 4 }, { plant_spacing_cm: null }, { plant_spacing_cm: NaN }]) {
    expect(placesThatFit(entry(wrong), bed)).toEqual([]);
    expect(complaints(entry(wrong), []).places).not.toBe("");
  }
});

test("a missing crop, a missing day and an end before the start are each told at their own box", () => {
  const plants = placesThatFit(entry(), bed);
  expect(complaints(entry({ crop: " " }), plants)).toMatchObject({ ...none, crop: expect.stringContaining("missing") });
  expect(complaints(entry({ from_on: "" }), plants)).toMatchObject({ ...none, from: expect.stringContaining("missing") });
  expect(complaints(entry({ to_on: "2031-05-02" }), plants)).toMatchObject({ ...none, to: expect.stringContaining("before") });
  expect(complaints(entry({ to_on: "2031-05-03" }), plants)).toEqual(none);
});

test("ending a planting sends its days and leaves its plants alone", () => {
  const stored = withDefaults("planting", { bed: "b", crop: "Okra", grown: { from_on: "2031-05-03", to_on: null }, plants: [[1, 2]], rows: null });
  const ended = { ...blank, ...entryOf(stored), to_on: "2031-09-01" };
  const set = setOf(ended, []);
  expect(set.grown).toEqual({ from_on: "2031-05-03", to_on: "2031-09-01" });
  expect(Object.keys(set)).not.toContain("plants");
  expect(complaints(ended, [])).toEqual(none);
});

test("crops are found by the first letters of any of their names", () => {
  expect(matching("toma")[0]?.name).toBe("Tomato");
  expect(matching("SOLANUM LYC").map((crop) => crop.key)).toContain("tomato");
  expect(matching("aubergine")[0]?.key).toBe("eggplant");
  expect(matching("  ")).toEqual([]);
  expect(matching("e").length).toBeLessThanOrEqual(6);
});

test("a word of one's own is kept without a key", () => {
  expect(keyOf("tomato ")).toBe("tomato");
  expect(keyOf("Grandmother's mix")).toBe("");
});
