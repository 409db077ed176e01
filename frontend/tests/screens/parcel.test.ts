import { expect, test } from "vitest";
import { inches, labelWords } from "../../src/screens/Print/parcel";

// 66.7 × 25.4 mm and 101.6 × 50.8 mm are the trade's 2⅝ × 1 in and 4 × 2 in (25.4 mm to the inch: NIST SP 811).
test.each([
  [66.7, "2⅝"],
  [25.4, "1"],
  [101.6, "4"],
  [50.8, "2"],
  [12.7, "½"],
])("%d mm is %s inches", (mm, said) => expect(inches(mm)).toBe(said));

test("a sheet of labels is named by its measures, and by how many it holds", () => {
  const a4 = { key: "a4_70x37", paper: "a4", n_across: 3, n_down: 8, width_mm: 70, height_mm: 37 } as const;
  expect(labelWords(a4)).toEqual({ label: "70 × 37 mm", note: "24 on a sheet, 3 by 8" });
  const letter = { key: "letter_67x25", paper: "letter", n_across: 3, n_down: 10, width_mm: 66.7, height_mm: 25.4 } as const;
  expect(labelWords(letter)).toEqual({ label: "2⅝ × 1 in", note: "30 on a sheet, 3 by 10" });
  expect(labelWords({ ...a4, key: "a4_strip" }).label).toBe("Plain paper, cut apart");
});
