// Turns what a person types as an area into square metres and back; nothing is ever sent in square feet.
import { CM_PER_INCH, type Units } from "./lengths.ts";

const M2_PER_FT2 = ((CM_PER_INCH * 12) / 100) ** 2;

/** m² from what was typed, to a square centimetre. */
export function m2From(typed: number | null, units: Units): number | null {
  if (typed === null || units === "metric") return typed;
  return Math.round(typed * M2_PER_FT2 * 10_000) / 10_000;
}

/** What stands in the box for an area, to 0.1 where it is not m². */
export function shownArea(m2: number | null, units: Units): number | null {
  if (m2 === null || units === "metric") return m2;
  return Math.round((m2 / M2_PER_FT2) * 10) / 10;
}
