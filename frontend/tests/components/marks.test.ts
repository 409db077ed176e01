import { expect, test } from "vitest";
import { marksOf } from "../../src/components/marks.ts";

const isBo = (by: string) => by === "Bo";
const at = { x_cm: 10, y_cm: 10 };
const read = (grades: number[], by: string[]) => ({ key: "p1", plant: 1, place: at, grades, by, state: "rated" as const });

test("two people who rated one plant are shown as a pair, each with a name", () => {
  const [mark] = marksOf([[10, 10]], [read([4, 3], ["Ana", "Bo"])], isBo);
  expect(mark).toMatchObject({ label: "Plant 1, Ana 4, you 3", grades: [4, 3] });
});

test("a rating says who made it", () => {
  expect(marksOf([[10, 10]], [read([4], ["Ana"])], isBo)[0]!.label).toBe("Plant 1, grade 4, by Ana");
});
