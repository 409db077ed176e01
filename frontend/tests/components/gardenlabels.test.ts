import { expect, test } from "vitest";
import { gardenScale } from "../../src/components/gardenlabels.ts";

test("forty beds in one line are drawn so large that each can be read, not shrunk to a strip", () => {
  const beds = Array.from({ length: 40 }, () => ({ width: 120, height: 480 }));
  const whole = 320 / (40 * 150);
  expect(120 * gardenScale(whole, beds)).toBeGreaterThanOrEqual(30);
});

test("a garden whose beds can be read is shown whole", () => {
  expect(gardenScale(0.4, [{ width: 120, height: 480 }, { width: 300, height: 90 }])).toBe(0.4);
  expect(gardenScale(0.4, [])).toBe(0.4);
});
