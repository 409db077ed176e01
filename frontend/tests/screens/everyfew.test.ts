import { expect, test } from "vitest";
import { bed } from "../../src/text/en/beds.ts";

test("every how many plants is said as people say it", () => {
  const said = [2, 3, 4, 11, 12, 13, 21, 22, 43, 50].map((k) => bed.everyFew.every(k));
  expect(said).toEqual(
    ["2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd", "43rd", "50th"].map((one) => `Every ${one} plant`),
  );
});
