import { expect, test } from "vitest";
import { type Planting, withDefaults } from "../../src/db/kinds";
import { blankEntry, complaints, entryOf, potPlaces, setOf } from "../../src/screens/PotsForm/potsforming";

const BED = { type: "rectangle", width_cm: 120, length_cm: 400 } as const;
const filled = () => ({ ...blankEntry(), crop: " Tomato ", crop_key: "tomato", from_on: "2026-11-28" });

test("a pot test is a planting whose plants are its pots, the last of them the blank", () => {
  const set = setOf(filled(), BED);
  expect(set.pots).toEqual({ n_pots: 4, blank_pot: 4, soil_cm3_per_pot: 600, soil_sample: null });
  expect(set).toMatchObject({ crop: "Tomato", crop_key: "tomato", rows: null, grown: { from_on: "2026-11-28", to_on: null } });
  expect(set.plants).toHaveLength(4);
});

test.each([1, 4, 20])("%d pots have a place each inside the bed, also in a narrow or a crooked one", (n) => {
  const crooked = { type: "outline", points_cm: [[0, 0], [120, 0], [120, 60], [60, 60], [60, 200], [0, 200]] } as const;
  for (const shape of [BED, { type: "rectangle", width_cm: 30, length_cm: 40 } as const, { ...crooked, points_cm: crooked.points_cm.map(([x, y]) => [x, y] as [number, number]) }]) {
    const places = potPlaces(shape, n);
    expect(places).toHaveLength(n);
    expect(new Set(places.map(String)).size).toBe(n);
  }
});

test("what is stored comes back as it was", () => {
  const set = setOf({ ...filled(), has_blank: false, note: "sill" }, BED);
  const doc = withDefaults("planting", { ...set, bed: "b" }) as Planting;
  expect(setOf({ ...blankEntry(), ...entryOf(doc) }, BED)).toEqual(set);
});

test("what cannot be is complained of in words", () => {
  expect(Object.values(complaints(filled())).every((said) => said === "")).toBe(true);
  expect(complaints({ ...filled(), n_pots: 1 }).pots).toContain("Beside the blank");
  expect(complaints({ ...filled(), n_pots: 21 }).pots).toBe("Between 1 and 20 pots.");
  expect(complaints({ ...filled(), blank_pot: 5 }).blank).toBe("The blank is one of the pots, 1 to 4.");
  expect(complaints({ ...filled(), blank_pot: 5, has_blank: false }).blank).toBe("");
  expect(complaints({ ...filled(), soil_cm3_per_pot: 20 }).soil).toBe("Between 50 and 20000 cm³.");
});
