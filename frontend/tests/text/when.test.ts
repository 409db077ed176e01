import { expect, test } from "vitest";
import { age } from "../../src/text/when.ts";

test.each([
  ["2026-07-01", "today"],
  ["2026-06-30", "yesterday"],
  ["2026-06-18", "13 days ago"],
  ["2026-06-17", "2 weeks ago"],
  ["2026-05-02", "8 weeks ago"],
  ["2026-05-01", "2 months ago"],
  ["2024-07-02", "23 months ago"],
  ["2024-07-01", "2 years ago"],
  ["2026-07-02", "on 2 Jul 2026"],
])("%s is said as %s on 1 July 2026", (day, said) => {
  expect(age(day, "2026-07-01")).toBe(said);
});
