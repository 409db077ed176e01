import fc from "fast-check";
import { expect, test } from "vitest";
import { celsiusFrom, shownWarmth } from "../../src/capture/warmth.ts";

// Fixed points of the two scales, as on any thermometer: water freezes at 0 °C or 32 °F and boils at 100 °C or 212 °F; they meet at −40.
test.each([[0, 32], [100, 212], [-40, -40], [-10, 14], [60, 140]])("%d °C is %d °F", (celsius, fahrenheit) => {
  expect(celsiusFrom(fahrenheit, "us")).toBe(celsius);
  expect(shownWarmth(celsius, "us")).toBe(fahrenheit);
});

test("what was typed to a tenth comes back as it was typed, in either measure", () => {
  fc.assert(
    fc.property(fc.integer({ min: 140, max: 1400 }), (tenths) => {
      expect(shownWarmth(celsiusFrom(tenths / 10, "us"), "us")).toBe(tenths / 10);
      expect(shownWarmth(celsiusFrom(tenths / 10, "metric"), "metric")).toBe(tenths / 10);
    }),
  );
  expect(celsiusFrom(null, "us")).toBeNull();
  expect(shownWarmth(null, "us")).toBeNull();
});
