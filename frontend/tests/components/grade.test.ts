import { expect, test } from "vitest";
import { gradeLook, meanWords, PLATE, plateText } from "../../src/components/grade.ts";

const grades = Array.from({ length: 11 }, (_, grade) => grade);

test("colour is never the only sign: a heavier grade's disc is larger, and there is colour around every plate", () => {
  for (const grade of grades.slice(1)) expect(gradeLook(grade).reach).toBeGreaterThan(gradeLook(grade - 1).reach);
  expect(gradeLook(0).reach).toBeGreaterThan(PLATE + 0.15);
  expect(gradeLook(10).reach).toBe(1);
});

test("what is written stays on the plate", () => {
  // Widest digit of the typeface in bold, and the height of its digits, as shares of the size; measured by hand.
  const [wide, high] = [0.63, 0.7];
  for (const text of ["7", "10", "4.8"]) {
    const size = plateText(text, 11);
    const width = [...text].reduce((sum, sign) => sum + (sign === "." ? 0.3 : wide), 0) * size;
    expect(Math.hypot(width / 2, (high * size) / 2)).toBeLessThanOrEqual(11 * PLATE + 1.4);
  }
});

test("a mean is rounded as Python rounds it", () => {
  // What Python's f"{mean:.1f}" says; the means of a core's sentence and of the page stand beside each other.
  const said = { 5.25: "5.2", 5.75: "5.8", 0.25: "0.2", 10: "10.0", 2.35: "2.4", 2.45: "2.5", 5.375: "5.4", 0.05: "0.1", 3.15: "3.1" };
  for (const [mean, words] of Object.entries(said)) expect(meanWords(Number(mean))).toBe(words);
});
