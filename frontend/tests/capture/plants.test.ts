import fc from "fast-check";
import { expect, test } from "vitest";
import { layOutPlants } from "../../src/capture/plants";
import type { Point, Rows, Shape } from "../../src/db/kinds";

const bed: Shape = { type: "rectangle", width_cm: 120, length_cm: 200 };
const rows: Rows = { n_rows: 2, row_spacing_cm: 60, plant_spacing_cm: 50 };

test("two rows of four stand centred with half a spacing left at the ends, dug down and back", () => {
  expect(layOutPlants(bed, rows)).toEqual([[30, 25], [30, 75], [30, 125], [30, 175], [90, 175], [90, 125], [90, 75], [90, 25]]);
});

test("a single row stands in the middle", () => {
  expect(layOutPlants(bed, { ...rows, n_rows: 1 }).map(([x]) => x)).toEqual([60, 60, 60, 60]);
});

test("rows that would stand outside the bed are left out", () => {
  const xs = layOutPlants(bed, { ...rows, n_rows: 5 }).map(([x]) => x);
  expect([...new Set(xs)]).toEqual([60]);
});

test("a box shorter than one spacing holds one plant in its middle", () => {
  const box: Shape = { type: "rectangle", width_cm: 40, length_cm: 40 };
  expect(layOutPlants(box, { n_rows: 1, row_spacing_cm: 60, plant_spacing_cm: 60 })).toEqual([[20, 20]]);
});

test("in a bed with a corner cut out no plant stands in the gap", () => {
  const outline: Shape = { type: "outline", points_cm: [[0, 0], [200, 0], [200, 100], [100, 100], [100, 200], [0, 200]] };
  const plants = layOutPlants(outline, { n_rows: 4, row_spacing_cm: 50, plant_spacing_cm: 50 });
  expect(plants).toHaveLength(12);
  expect(plants.some(([x, y]) => x > 100 && y > 100)).toBe(false);
});

const spacing = fc.record({ n_rows: fc.integer({ min: 1, max: 60 }), row_spacing_cm: fc.integer({ min: 5, max: 500 }), plant_spacing_cm: fc.integer({ min: 2, max: 500 }) });

test("no plant is outside the bed, none stands on another, and there are at most 400", () => {
  const side = fc.integer({ min: 20, max: 5000 });
  fc.assert(fc.property(side, side, spacing, (width_cm, length_cm, pattern) => {
    const plants = layOutPlants({ type: "rectangle", width_cm, length_cm }, pattern);
    expect(plants.every(([x, y]) => x >= 0 && x <= width_cm && y >= 0 && y <= length_cm)).toBe(true);
    expect(new Set(plants.map(String)).size).toBe(plants.length);
    expect(plants.length).toBeLessThanOrEqual(400);
  }));
});

test("the way from each plant to the next never crosses back over the bed", () => {
  fc.assert(fc.property(spacing, (pattern) => {
    const plants = layOutPlants({ type: "rectangle", width_cm: 3000, length_cm: 3000 }, pattern);
    const step = (from: Point, to: Point) => Math.abs(from[0] - to[0]) + Math.abs(from[1] - to[1]);
    const longest = Math.max(0, ...plants.slice(1).map((to, at) => step(plants[at]!, to)));
    expect(longest).toBeLessThanOrEqual(Math.max(pattern.plant_spacing_cm, pattern.row_spacing_cm) + 1);
  }));
});
