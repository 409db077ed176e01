// How far a folded part of the sample page has come.
import type { SoilSample } from "../../db/kinds.ts";

const PARTS = {
  soil: ["depth", "moisture", "soil_temperature_celsius", "has_roots", "lifted_at"],
  plants: ["symptom", "symptom_pattern", "irrigated", "treatments", "next_crop", "next_crop_on"],
  lab: ["tests_wanted", "lab_profile", "note"],
} as const satisfies Record<string, (keyof SoilSample)[]>;

export type FoldedPart = keyof typeof PARTS;

const given = (value: unknown) => value !== null && value !== "" && !(Array.isArray(value) && value.length === 0);

/** Answers given and questions asked; what grows in the bed always has an answer, "nothing" being one. */
export function answered(part: FoldedPart, doc: SoilSample): { n: number; of: number } {
  const always = part === "plants" ? 1 : 0;
  return { n: PARTS[part].filter((field) => given(doc[field])).length + always, of: PARTS[part].length + always };
}
