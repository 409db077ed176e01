import { expect, test } from "vitest";
import { byPlant, tally } from "../../src/capture/tally.ts";
import type { GallRating } from "../../src/db/kinds.ts";
import { withDefaults } from "../../src/db/kinds.ts";

function rating(plant: number, grade: number | null, minute = 0, state: GallRating["reading"]["state"] = "rated", by = "me") {
  const doc = withDefaults("gall_rating", {
    root_check: "c",
    place: { x_cm: 10 * plant, y_cm: 0, plant },
    reading: { state, grade, gall_scale: "pct10", trace_only: false },
    rated_at: `2026-07-01T08:${String(minute).padStart(2, "0")}:00Z`,
  });
  return { id: `${plant}-${minute}`, by, doc };
}

test("the mean is that of the rated plants; missing and dead ones have no grade", () => {
  const sums = tally(byPlant([rating(1, 3), rating(2, 6), rating(3, null, 0, "missing"), rating(4, null, 0, "dead")]));
  expect(sums).toMatchObject({ n_rated: 2, n_missing: 1, n_dead: 1, mean: 4.5, lowest: 3, highest: 6 });
});

test("no plant rated is no mean, not a mean of zero", () => {
  expect(tally(byPlant([rating(1, null, 0, "dead")])).mean).toBeNull();
});

test("a plant that two people rated shows both readings and counts once", () => {
  const plants = byPlant([rating(1, 5, 2), rating(1, 3, 1, "rated", "Ana"), rating(2, 0, 9)]);
  expect(plants[0]).toMatchObject({ grades: [3, 5], by: ["Ana", "me"] });
  expect(tally(plants)).toMatchObject({ n_rated: 2, mean: 2 });
});

test("the readings are counted by grade", () => {
  expect(tally(byPlant([rating(1, 0), rating(2, 10), rating(3, 10)])).by_grade).toEqual([1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 2]);
});
