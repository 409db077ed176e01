import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import { missingOnParcel, missingOnSample } from "../../src/screens/Print/missing.ts";

const garden = withDefaults("garden", { name: "Plot", grower_name: "Ines Vale", grower_address: "Long Lane 4", grower_email: "ines@plot.example" });
const lab = withDefaults("lab_profile", { name: "Bench", address: "Quay 9", account_number: "7" });
const bed = withDefaults("bed", { name: "A", shape: { type: "rectangle", width_cm: 100, length_cm: 100 }, soil: "sand" });
const sample = withDefaults("soil_sample", { bed: "b", code: "K7M2H", purpose: "predict" });

test("a parcel with everything typed lacks nothing; one way to reach the grower is enough", () => {
  expect(missingOnParcel(garden, lab)).toEqual([]);
  expect(missingOnParcel({ ...garden, grower_email: "" }, lab)).toEqual(["grower_reach"]);
});

test("without a lab the lab's own lines are not asked for one by one", () => {
  expect(missingOnParcel(garden, undefined)).toEqual(["lab"]);
  expect(missingOnParcel(garden, { ...lab, address: "", account_number: "" })).toEqual(["lab_address", "account_number"]);
});

test("a new sample lacks what has not been answered, and a no counts as an answer", () => {
  expect(missingOnSample(sample, bed)).toHaveLength(13);
  const answered = { ...sample, irrigated: false, soil_temperature_celsius: 0, n_cores: 10, core_places: [[1, 1]] as [number, number][] };
  const lines = missingOnSample(answered, { ...bed, soil: "" });
  expect(lines).toHaveLength(10);
  expect(lines).toContain("soil");
  for (const field of ["irrigated", "soil_temperature_celsius", "n_cores", "core_places"]) expect(lines).not.toContain(field);
});
