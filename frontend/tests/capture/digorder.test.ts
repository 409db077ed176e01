import fc from "fast-check";
import { expect, test } from "vitest";
import { digOrder, nextPlant } from "../../src/capture/digorder.ts";

const ID = "01951000-c28d-7e0a-a7d5-6ab57714dc91";

test("every plant means each once, in the order they were numbered", () => {
  expect(digOrder({ how: "all", every_k: null }, 5, ID)).toEqual([1, 2, 3, 4, 5]);
});

test("random is the same draw on every phone and leaves no plant out", () => {
  fc.assert(
    fc.property(fc.uuid(), fc.integer({ min: 0, max: 400 }), (id, n) => {
      const order = digOrder({ how: "random", every_k: null }, n, id);
      expect(digOrder({ how: "random", every_k: null }, n, id)).toEqual(order);
      expect([...order].sort((a, b) => a - b)).toEqual(Array.from({ length: n }, (_, i) => i + 1));
    }),
  );
});

test("a random order gives each plant the first turn about equally often", () => {
  const firsts = new Array<number>(8).fill(0);
  for (let i = 0; i < 8000; i++) firsts[digOrder({ how: "random", every_k: null }, 8, `${ID}-${i}`)[0]! - 1]!++;
  // Chi-squared with 7 degrees of freedom exceeds 24.3 once in a thousand (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
  expect(firsts.reduce((sum, n) => sum + (n - 1000) ** 2 / 1000, 0)).toBeLessThan(24.3);
});

test("every k-th plant goes on in steps of k from a first plant among the first k", () => {
  fc.assert(
    fc.property(fc.uuid(), fc.integer({ min: 2, max: 50 }), fc.integer({ min: 1, max: 400 }), (id, k, n) => {
      const order = digOrder({ how: "every_kth", every_k: k }, n, id);
      expect(order[0]).toBeLessThanOrEqual(Math.min(k, n));
      order.slice(1).forEach((plant, i) => expect(plant - order[i]!).toBe(k));
      expect(order.at(-1)! + k).toBeGreaterThan(n);
    }),
  );
});

test("the worst-looking plants are chosen by eyes, so the phone proposes none", () => {
  const order = digOrder({ how: "worst_looking", every_k: null }, 12, ID);
  expect(nextPlant(order, new Set())).toBeNull();
});

test("the next plant is the first not done after this one, then from the start, then none", () => {
  expect(nextPlant([1, 2, 3, 4], new Set([2, 3]), 2)).toBe(4);
  expect(nextPlant([1, 2, 3, 4], new Set([2, 3, 4]), 4)).toBe(1);
  expect(nextPlant([1, 2], new Set([1, 2]), 2)).toBeNull();
  expect(nextPlant([2, 5, 8], new Set([2, 6]), 6)).toBe(5);
});
