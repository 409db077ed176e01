import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import { missingOnParcel, missingOnSample } from "../../src/screens/Print/missing.ts";

const garden = withDefaults("garden", { name: "Plot", grower_name: "Ines Vale", grower_address: "Long Lane 4", grower_email: "ines@plot.example" });
const lab = withDefaults("lab_profile", { name: "Bench", address: "Quay 9", account_number: "7" });
const bed = withDefaults("bed", { name: "A", shape: { type: "rectangle", width_cm: 100, length_cm: 100 }, soil: "sand" });
const sample = withDefaults("soil_sample", { bed: "b", code: "K7M2H", purpose: "predict" });

const DAY = "2031-08-03";

test("a parcel with everything typed lacks nothing; one way to reach the grower is enough", () => {
  expect(missingOnParcel(garden, lab)).toEqual([]);
  expect(missingOnParcel({ ...garden, grower_email: "" }, lab)).toEqual(["grower_reach"]);
});

test("without a lab the lab's own lines are not asked for one by one", () => {
  expect(missingOnParcel(garden, undefined)).toEqual(["lab"]);
  expect(missingOnParcel(garden, { ...lab, address: "", account_number: "" })).toEqual(["lab_address", "account_number"]);
});

test("a new sample lacks what has not been answered, and a no counts as an answer", () => {
  expect(missingOnSample(sample, bed, [], DAY)).toHaveLength(14);
  const answered = { ...sample, irrigated: false, has_roots: false, soil_temperature_celsius: 0, n_cores: 10, core_places: [[1, 1]] as [number, number][] };
  const lines = missingOnSample(answered, { ...bed, soil: "" }, [], DAY);
  expect(lines).toHaveLength(10);
  expect(lines).toContain("soil");
  for (const field of ["irrigated", "has_roots", "soil_temperature_celsius", "n_cores", "core_places"]) expect(lines).not.toContain(field);
});

test("the crop is missing only when the sheet would print none", () => {
  const planting = (id: string, from_on: string, to_on: string | null, of = "b") => ({
    id, kind: "planting" as const, garden: "g", seq: 1, unsent: false, parked: false, by: "",
    doc: withDefaults("planting", { bed: of, crop: "Okra", grown: { from_on, to_on } }),
  });
  const lacks = (plantings: ReturnType<typeof planting>[], of = sample) => missingOnSample(of, bed, plantings, DAY).includes("planting");
  expect(lacks([planting("p", "2031-05-02", null)])).toBe(false);
  expect(lacks([planting("p", "2031-05-02", DAY)])).toBe(false);
  expect(lacks([planting("p", "2031-05-02", "2031-08-02")])).toBe(true);
  expect(lacks([planting("p", "2031-05-02", "2031-08-02")], { ...sample, planting: "p" })).toBe(false);
  expect(lacks([planting("p", "2031-05-02", null, "other")])).toBe(true);
  expect(lacks([planting("p", "2031-08-04", null)])).toBe(true);
});
