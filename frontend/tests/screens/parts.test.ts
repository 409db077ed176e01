import { expect, test } from "vitest";
import { fit } from "../../src/components/fit.ts";
import { type Half, halvesOf, nameOf } from "../../src/screens/SampleForm/parts.ts";

const beds = [[120, 420], [420, 120], [121, 301]].map(([width_cm, length_cm]) => ({ type: "rectangle", width_cm: width_cm!, length_cm: length_cm! }) as const);

test("a half is named by the edge it lies at when the bed is drawn upright", () => {
  for (const bed of beds) {
    const drawn = fit(bed, 300, 480, 0, 1, true);
    const middle = (half: Half) => {
      const { x_cm, y_cm, width_cm, length_cm } = halvesOf(bed)[half];
      return drawn.at([x_cm + width_cm / 2, y_cm + length_cm / 2]);
    };
    expect(middle("top")[1]).toBeLessThan(middle("bottom")[1]);
    expect(middle("top")[0]).toBe(middle("bottom")[0]);
    expect(middle("left")[0]).toBeLessThan(middle("right")[0]);
    expect(middle("left")[1]).toBe(middle("right")[1]);
  }
});

test("two halves make the bed, and a stored half is found by its name again", () => {
  for (const bed of beds) {
    const { top, bottom, left, right } = halvesOf(bed);
    expect(top.length_cm + bottom.length_cm).toBe(bed.length_cm);
    expect(left.width_cm + right.width_cm).toBe(bed.width_cm);
    for (const [name, half] of Object.entries(halvesOf(bed))) expect(nameOf(half, bed)).toBe(name);
    expect(nameOf(null, bed)).toBe("whole");
    expect(nameOf({ ...top, length_cm: 7 }, bed)).toBe("own");
  }
});
