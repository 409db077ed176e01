import { expect, test } from "vitest";
import { type Bed, withDefaults } from "../../src/db/kinds.ts";
import { type BedEntry, complaints, entryOf, fromOrigin, placeBeside, shapeOf } from "../../src/screens/BedForm/bedforming.ts";

const bed = (doc: Partial<Bed>): Bed => withDefaults("bed", { name: "A", shape: { type: "rectangle", width_cm: 120, length_cm: 400 }, ...doc });
const entry = (doc: Partial<BedEntry>): BedEntry => ({ ...entryOf(bed({})), ...doc });

test("a first bed lies at the garden's corner, the next ones beside it with a path between", () => {
  expect(placeBeside([])).toEqual({ x_cm: 0, y_cm: 0 });
  expect(placeBeside([bed({})])).toEqual({ x_cm: 170, y_cm: 0 });
  const far = bed({ place: { x_cm: 600, y_cm: 90 } });
  expect(placeBeside([far, bed({ place: { x_cm: 0, y_cm: 300 } })])).toEqual({ x_cm: 770, y_cm: 300 });
});

test("a bed that was stored comes back from the form as it was", () => {
  const outline = { type: "outline", points_cm: [[0, 0], [200, 0], [100, 150]] } as Bed["shape"];
  for (const shape of [bed({}).shape, outline]) expect(shapeOf(entryOf(bed({ shape })))).toEqual(shape);
});

test("the form complains of what the server would refuse, and says the bounds", () => {
  const none = { name: "", size: "", depth: "" };
  expect(complaints(entry({}), "metric")).toEqual(none);
  expect(complaints(entry({ name: "  " }), "metric").name).not.toBe("");
  for (const width_cm of [null, NaN, 19, 5001]) expect(complaints(entry({ width_cm }), "metric").size).toContain("20 cm to 5000 cm");
  expect(complaints(entry({ width_cm: 20, length_cm: 5000 }), "metric")).toEqual(none);
  expect(complaints(entry({ width_cm: 19 }), "us").size).toContain("8 in to 164 ft");
  for (const depth_cm of [4, 201, NaN]) expect(complaints(entry({ depth_cm }), "metric").depth).toContain("5 cm to 200 cm");
});

test("an outline needs three corners, has forty at most, and starts at its own top left", () => {
  const outline = (n: number) => entry({ form: "outline", points_cm: Array.from({ length: n }, (_, i) => [i * 10, (i % 2) * 50] as [number, number]) });
  expect(complaints(outline(2), "metric").size).not.toBe("");
  expect(complaints(outline(40), "metric").size).toBe("");
  expect(complaints(outline(41), "metric").size).not.toBe("");
  expect(shapeOf(outline(2))).toBeNull();
  expect(fromOrigin({ type: "outline", points_cm: [[50, 25], [150, 25], [50, 125]] })).toEqual({ type: "outline", points_cm: [[0, 0], [100, 0], [0, 100]] });
});
