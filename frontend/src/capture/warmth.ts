// Turns what a person types as warmth into °C and back; nothing is ever stored in °F.
import type { Units } from "./lengths.ts";

// Exact by definition: t/°F = 1.8 t/°C + 32 (NIST SP 811, B.8; quoted from memory).
const DEGREES_F_PER_C = 1.8;
const FREEZING_F = 32;

/** °C from what was typed: kept to 0.01, so that whole and half °F come back as they were typed. */
export function celsiusFrom(typed: number | null, units: Units): number | null {
  if (typed === null || units === "metric") return typed;
  return Math.round(((typed - FREEZING_F) / DEGREES_F_PER_C) * 100) / 100;
}

/** What stands in the box for a stored warmth, to 0.1 where it is not °C. */
export function shownWarmth(celsius: number | null, units: Units): number | null {
  if (celsius === null || units === "metric") return celsius;
  return Math.round((celsius * DEGREES_F_PER_C + FREEZING_F) * 10) / 10;
}
