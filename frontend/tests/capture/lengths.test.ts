import { expect, test } from "vitest";
import { CM_PER_INCH, cmFromFeet, feetFromCm, lengthWords, numberFrom } from "../../src/capture/lengths.ts";

// NIST Special Publication 811 (2008), Appendix B.8: inch 2.54 E-02 m, foot 3.048 E-01 m, yard 9.144 E-01 m (all exact; quoted from memory).
test("an inch, a foot and a yard are as long as the standard says", () => {
  expect(CM_PER_INCH).toBe(2.54);
  expect(cmFromFeet("100", "")).toBe(3048);
  expect(cmFromFeet("300", "0")).toBe(9144);
});

test("a decimal comma counts like a point, a word is no number, an empty box is nothing", () => {
  expect(numberFrom("2,5")).toBe(2.5);
  expect(numberFrom(" 30 ")).toBe(30);
  expect(numberFrom("three")).toBeNaN();
  expect(numberFrom("-3")).toBeNaN();
  expect(cmFromFeet("", " ")).toBeNull();
  expect(cmFromFeet("3", "x")).toBeNaN();
});

test("what is shown in feet and inches comes back within the half inch it was rounded to", () => {
  for (let cm = 20; cm <= 5000; cm += 1) {
    const { feet, inches } = feetFromCm(cm);
    expect(Number(inches)).toBeLessThan(12);
    expect(Math.abs((cmFromFeet(feet, inches) ?? NaN) - cm)).toBeLessThanOrEqual(1);
  }
});

test("lengths are said in the garden's own measure", () => {
  expect(lengthWords(120, "metric")).toBe("120 cm");
  expect(lengthWords(122, "us")).toBe("4 ft");
  expect(lengthWords(20, "us")).toBe("8 in");
  expect(lengthWords(119, "us")).toBe("3 ft 11 in");
});
