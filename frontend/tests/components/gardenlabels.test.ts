import { expect, test } from "vitest";
import { gardenScale, labelFor } from "../../src/components/gardenlabels.ts";

test("forty beds in one line are drawn so large that each can be read, not shrunk to a strip", () => {
  const beds = Array.from({ length: 40 }, () => ({ width: 120, height: 480 }));
  const whole = 320 / (40 * 150);
  expect(120 * gardenScale(whole, beds)).toBeGreaterThanOrEqual(30);
});

test("a garden whose beds can be read is shown whole", () => {
  expect(gardenScale(0.4, [{ width: 120, height: 480 }, { width: 300, height: 90 }])).toBe(0.4);
  expect(gardenScale(0.4, [])).toBe(0.4);
});

const bed = (w: number, h: number): [number, number][] => [[0, 0], [w, 0], [w, h], [0, h]];
const LONG = "The long bed behind the old greenhouse, beside the fig wall";

test.each([
  ["Fig corner", 60, 200, "Fig corner"],
  [LONG, 60, 200, "The long bed…"],
  [LONG, 200, 60, "The long bed…"],
  ["Southernmost", 60, 120, "South…"],
])("%s on a bed of %i by %i px is written %s", (name, w, h, written) => {
  expect(labelFor(name, bed(w, h)).name?.text).toBe(written);
});

test("a name keeps inside its bed however long it is, and a bed too small for letters has its mark alone", () => {
  for (const [w, h] of [[60, 200], [200, 60], [300, 200], [44, 90]] as const) {
    const { name } = labelFor(LONG, bed(w, h));
    expect((name?.text.length ?? 0) * 8.2).toBeLessThanOrEqual(name?.turn ? h : w);
  }
  expect(labelFor(LONG, bed(50, 50))).toMatchObject({ mark: { x: 25, y: 25 }, name: null });
});
