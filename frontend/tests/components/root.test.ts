import { expect, test } from "vitest";
import { rootPieces } from "../../src/components/root.ts";

const share = (percent: number) => {
  const pieces = rootPieces(percent);
  return (100 * pieces.filter((piece) => piece.galled).length) / pieces.length;
};

test("as much of the drawn root is swollen as the percentage says, to within one piece", () => {
  for (let percent = 0; percent <= 100; percent += 5) expect(Math.abs(share(percent) - percent)).toBeLessThanOrEqual(100 / rootPieces(0).length);
});

test("one confirmed gall is never drawn as none", () => {
  expect(share(0)).toBe(0);
  expect(share(0.1)).toBeGreaterThan(0);
});

test("what is swollen at one percentage is swollen at every higher one", () => {
  for (let percent = 10; percent <= 100; percent += 10) {
    const before = rootPieces(percent - 10);
    rootPieces(percent).forEach((piece, i) => before[i]!.galled && expect(piece.galled).toBe(true));
  }
});
