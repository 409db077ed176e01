import { expect, test } from "vitest";
import { fileName } from "../../src/screens/Print/filename.ts";
import { newFirst } from "../../src/screens/Print/older.ts";

test("a file is called by its bag or by its bed and day", () => {
  expect(fileName("submission", ["K7M2-H"])).toBe("Soil sample K7M2-H.pdf");
  expect(fileName("bed-map", ["Fig corner", "2031-08-03"])).toBe("Root map Fig corner 2031-08-03.pdf");
  expect(fileName("rating-form", ["Łąka: ½/2 \\ \"north\"", "Okra", "2031-05-02"])).toBe("Rating form Łąka ½ 2 north Okra 2031-05-02.pdf");
  expect(fileName("bed-map", ["W".repeat(200)])).toHaveLength(84);
});

test("a short list is shown whole, of a long one the likely part", () => {
  const list = Array.from({ length: 9 }, (_, i) => i);
  expect(newFirst(list.slice(0, 6), 1)).toEqual({ first: [0, 1, 2, 3, 4, 5], older: [] });
  expect(newFirst(list, 2)).toEqual({ first: [0, 1, 2, 3, 4, 5], older: [6, 7, 8] });
  expect(newFirst(list, 8).older).toEqual([8]);
});
