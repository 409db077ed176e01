import fc from "fast-check";
import { expect, test } from "vitest";
import { closedPath, extent, fit, halfGap } from "../../src/components/fit.ts";
import { marksOf, nearest, numberFits, readableZoom, rowEnds, viewOf } from "../../src/components/marks.ts";
import type { Point } from "../../src/db/kinds.ts";

const side = fc.integer({ min: 20, max: 5000 });

test("a bed is drawn to scale, inside its box, with its long side across", () => {
  fc.assert(
    fc.property(side, side, (width_cm, length_cm) => {
      const drawn = fit({ type: "rectangle", width_cm, length_cm }, 336, 160, 6);
      expect(drawn.width).toBeLessThanOrEqual(336 + 1e-6);
      expect(drawn.height).toBeLessThanOrEqual(160 + 1e-6);
      const [a, b] = [drawn.at([0, 0]), drawn.at([width_cm, length_cm])];
      const long = Math.max(width_cm, length_cm) * drawn.scale;
      expect(Math.abs(a[0] - b[0])).toBeCloseTo(long, 5);
    }),
  );
});

test("a tap leads back to the place in the bed it was drawn from", () => {
  fc.assert(
    fc.property(side, side, fc.nat(5000), fc.nat(5000), (width_cm, length_cm, x, y) => {
      const drawn = fit({ type: "rectangle", width_cm, length_cm }, 336, 160, 6, 3);
      const [bx, by] = drawn.back(drawn.at([x, y]));
      expect(bx).toBeCloseTo(x, 4);
      expect(by).toBeCloseTo(y, 4);
    }),
  );
});

test("an outline is as large as its outermost points", () => {
  expect(extent({ type: "outline", points_cm: [[0, 0], [120, 0], [300, 320]] })).toEqual({ width: 300, height: 320 });
  expect(closedPath([[0, 0], [1, 0], [0, 1]])).toBe("M0.0 0.0L1.0 0.0L0.0 1.0Z");
});

test("half the gap is half the distance of the two nearest plants", () => {
  expect(halfGap([[0, 0], [30, 40], [30, 44]])).toBe(2);
  expect(halfGap([[5, 5]])).toBe(Infinity);
});

test("300 plants are shown so large that a number can be read, with the chosen one in sight", () => {
  const plants = Array.from({ length: 300 }, (_, i): Point => [5 + 12 * (i % 10), 8 + 16 * Math.floor(i / 10)]);
  const marks = marksOf(plants, [], () => false);
  const shape = { type: "rectangle", width_cm: 120, length_cm: 490 } as const;
  const zoom = readableZoom(shape, marks, 280, 140);
  for (const plant of [0, 149, 299]) {
    const view = viewOf(shape, marks, 280, 140, zoom, plants[plant]);
    const [x, y] = view.fit.at(plants[plant]!);
    expect(view.radius).toBeGreaterThanOrEqual(11);
    expect(x).toBeGreaterThan(view.left);
    expect(x).toBeLessThan(view.left + view.width);
    expect(y).toBeGreaterThan(view.top);
    expect(y).toBeLessThan(view.top + view.height);
  }
});

test("a tap beside a plant means the nearest plant, a tap far from all means none", () => {
  const marks = marksOf([[10, 10], [50, 10]], [], () => false);
  expect(nearest(marks, [40, 12], 20)?.plant).toBe(2);
  expect(nearest(marks, [300, 10], 20)).toBeUndefined();
});

test("the ring of the chosen plant is seen whole, even of a plant at the edge of a large bed", () => {
  const plants = Array.from({ length: 300 }, (_, i): Point => [1 + 12 * (i % 10), 1 + 16 * Math.floor(i / 10)]);
  const shape = { type: "rectangle", width_cm: 110, length_cm: 466 } as const;
  const marks = marksOf(plants, [], () => false);
  const zoom = readableZoom(shape, marks, 280, 140);
  for (const plant of [0, 9, 290, 299]) {
    const view = viewOf(shape, marks, 280, 140, zoom, plants[plant]);
    const [x, y] = view.fit.at(plants[plant]!);
    const ring = view.radius + 5;
    expect(x - ring).toBeGreaterThanOrEqual(view.left);
    expect(x + ring).toBeLessThanOrEqual(view.left + view.width);
    expect(y - ring).toBeGreaterThanOrEqual(view.top);
    expect(y + ring).toBeLessThanOrEqual(view.top + view.height);
  }
});

test("marks of a bed seen from far do not cover one another, and are then dots without a number", () => {
  const plants = Array.from({ length: 300 }, (_, i): Point => [5 + 12 * (i % 10), 8 + 16 * Math.floor(i / 10)]);
  const shape = { type: "rectangle", width_cm: 120, length_cm: 490 } as const;
  const view = viewOf(shape, marksOf(plants, [], () => false), 280, 140, 1);
  expect(2 * view.radius).toBeLessThanOrEqual(12 * view.fit.scale);
  expect(numberFits(view.radius)).toBe(false);
});

test("a row begins and ends where the way from plant to plant turns", () => {
  const serpentine: Point[] = [[10, 10], [10, 40], [10, 70], [50, 70], [50, 40], [50, 10]];
  expect(rowEnds(serpentine)).toEqual([true, false, true, true, false, true]);
  expect(rowEnds([[10, 10]])).toEqual([true]);
});
