import { expect, test } from "vitest";
import { withDefaults } from "../../src/db/kinds";
import { countries } from "../../src/screens/LabForm/countries";
import { blankEntry, complaints, entryOf, setOf, withClosed, withDay } from "../../src/screens/LabForm/labforming";

test("a lab of which nothing is said of the carrier has none", () => {
  expect(setOf({ ...blankEntry(), name: " The bench " })).toMatchObject({ name: "The bench", courier: null, country: "", closed_on: [], usual_days: null });
});

test("what is stored comes back as it was, and the lab's own form is not touched", () => {
  const courier = { transit_days: 2, to_door: false, moves_on: [0, 3], words: "the boat" };
  const doc = withDefaults("lab_profile", { name: "Bench", courier, usual_days: 15, country: "CV", form: { paper: "p", fields: [], spots: [] } });
  const { form: _form, ...rest } = doc;
  expect(setOf({ ...blankEntry(), ...entryOf(doc) })).toEqual(rest);
});

test("days that cannot be are complained of, and empty ones are not", () => {
  const courier = { ...blankEntry().courier, transit_days: 2, moves_on: [] };
  expect(complaints(blankEntry())).toEqual({ usual: "", transit: "", moves: "" });
  expect(complaints({ ...blankEntry(), usual_days: 0, courier })).toEqual({ usual: "Between 1 and 200, or empty.", transit: "", moves: "Pick at least one day on which parcels move." });
  expect(complaints({ ...blankEntry(), courier: { ...courier, transit_days: 2.5 } }).transit).toContain("Between 0 and 20");
});

test("days stand in order, each once", () => {
  expect(withDay([0, 3], 1, true)).toEqual([0, 1, 3]);
  expect(withDay([0, 1, 3], 1, false)).toEqual([0, 3]);
  expect(withClosed(["2026-12-28"], "2026-12-24")).toEqual(["2026-12-24", "2026-12-28"]);
  expect(withClosed(["2026-12-24"], "2026-12-24")).toEqual(["2026-12-24"]);
});

// ISO 3166-1 has 249 countries (iso.org, count from memory); CV and CI are two of them, UK and XK are not.
test("the countries are those of ISO 3166 with two letters, by their names", () => {
  const all = countries("en");
  const codes = all.map(({ code }) => code);
  expect(codes).toHaveLength(249);
  expect(all.find(({ code }) => code === "CV")?.name).toMatch(/Cape Verde|Cabo Verde/);
  expect(codes).toContain("CI");
  for (const none of ["UK", "XK", "EU", "DD", "SU", "ZZ"]) expect(codes).not.toContain(none);
});
