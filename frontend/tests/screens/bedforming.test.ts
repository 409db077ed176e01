import { expect, test } from "vitest";
import { type Bed, withDefaults } from "../../src/db/kinds.ts";
import { type BedEntry, complaints, entryOf, fromOrigin, NO_COMPLAINTS, placeBeside, shapeOf } from "../../src/screens/BedForm/bedforming.ts";

const bed = (doc: Partial<Bed>): Bed => withDefaults("bed", { name: "A", shape: { type: "rectangle", width_cm: 120, length_cm: 400 }, ...doc });
const entry = (doc: Partial<BedEntry>): BedEntry => ({ ...entryOf(bed({})), ...doc });

test("a first bed lies at the garden's corner, the next ones beside it with a path between", () => {
  expect(placeBeside([])).toEqual({ x_cm: 0, y_cm: 0 });
  expect(placeBeside([bed({})])).toEqual({ x_cm: 170, y_cm: 0 });
  const far = bed({ place: { x_cm: 600, y_cm: 90 } });
  expect(placeBeside([far, bed({ place: { x_cm: 0, y_cm: 300 } })])).toEqual({ x_cm: 770, y_cm: 300 });
});

test("beds drawn one after the other come in rows of about ten metres that do not meet", () => {
  const beds: Bed[] = [];
  for (let n = 0; n < 40; n++) beds.push(bed({ place: placeBeside(beds), shape: { type: "rectangle", width_cm: 120, length_cm: 300 + 10 * (n % 5) } }));
  expect(beds.slice(0, 7).map(({ place }) => place)).toEqual([
    ...[0, 170, 340, 510, 680, 850].map((x_cm) => ({ x_cm, y_cm: 0 })),
    { x_cm: 0, y_cm: 390 },
  ]);
  for (const [n, { place }] of beds.entries()) {
    expect(place.x_cm).toBeLessThanOrEqual(1000);
    for (const before of beds.slice(0, n)) {
      const apart = Math.abs(place.x_cm - before.place.x_cm) >= 170 || Math.abs(place.y_cm - before.place.y_cm) >= 350;
      expect(apart).toBe(true);
    }
  }
});

test("a bed that was stored comes back from the form as it was", () => {
  const outline = { type: "outline", points_cm: [[0, 0], [200, 0], [100, 150]] } as Bed["shape"];
  for (const shape of [bed({}).shape, outline]) expect(shapeOf(entryOf(bed({ shape })))).toEqual(shape);
});

test("the form complains of what the server would refuse, and says the bounds", () => {
  const none = NO_COMPLAINTS;
  expect(complaints(entry({}), "metric")).toEqual(none);
  expect(complaints(entry({ name: "  " }), "metric").name).not.toBe("");
  for (const width_cm of [null, NaN, 19, 5001]) expect(complaints(entry({ width_cm }), "metric")).toEqual({ ...none, width: "Between 20 cm and 5000 cm." });
  expect(complaints(entry({ width_cm: 19, length_cm: null }), "metric")).toMatchObject({ width: expect.stringContaining("20"), length: expect.stringContaining("20") });
  expect(complaints(entry({ width_cm: 20, length_cm: 5000 }), "metric")).toEqual(none);
  expect(complaints(entry({ width_cm: 19 }), "us").width).toBe("Between 8 in and 164 ft.");
  for (const depth_cm of [4, 201, NaN]) expect(complaints(entry({ depth_cm }), "metric").depth).toBe("Between 5 cm and 200 cm.");
});

test("an outline needs three corners, has forty at most, and starts at its own top left", () => {
  const outline = (n: number) => entry({ form: "outline", points_cm: Array.from({ length: n }, (_, i) => [i * 10, (i % 2) * 50] as [number, number]) });
  expect(complaints(outline(2), "metric").size).not.toBe("");
  expect(complaints(outline(40), "metric").size).toBe("");
  expect(complaints(outline(41), "metric").size).not.toBe("");
  expect(shapeOf(outline(2))).toBeNull();
  expect(fromOrigin({ type: "outline", points_cm: [[50, 25], [150, 25], [50, 125]] })).toEqual({ type: "outline", points_cm: [[0, 0], [100, 0], [0, 100]] });
});
