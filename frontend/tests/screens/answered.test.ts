import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds.ts";
import { answered } from "../../src/screens/SampleForm/answered.ts";

const fresh = withDefaults("soil_sample", { bed: "b", code: "K7M2H", purpose: "predict" });

test("a new sample has answered nothing but what grows there", () => {
  expect(answered("soil", fresh)).toEqual({ n: 0, of: 5 });
  expect(answered("plants", fresh)).toEqual({ n: 1, of: 7 });
  expect(answered("lab", fresh)).toEqual({ n: 0, of: 3 });
});

test("a no and a nought are answers", () => {
  expect(answered("soil", { ...fresh, has_roots: false, soil_temperature_celsius: 0 }).n).toBe(2);
  expect(answered("plants", { ...fresh, irrigated: false }).n).toBe(2);
  expect(answered("lab", { ...fresh, tests_wanted: ["species_id"] }).n).toBe(1);
});
