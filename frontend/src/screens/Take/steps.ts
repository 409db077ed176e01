/** The steps of taking a sample, and where a person who comes back goes on. */
import type { SoilSample } from "../../db/kinds.ts";

export const STEPS = ["walk", "deep", "feel", "warm", "photo", "bag", "parcel"] as const;
export type StepName = (typeof STEPS)[number];

const walked = ({ cores_planned, core_places, n_cores }: SoilSample) =>
  cores_planned.length > 0 ? core_places.length >= cores_planned.length : n_cores !== null;

/** The step asked for, or the first one that is not answered; warmth and photo may be left out. */
export function stepOf(asked: string | null, doc: SoilSample): StepName {
  const found = STEPS.find((step) => step === asked);
  if (found) return found;
  if (!walked(doc)) return "walk";
  if (doc.depth === null) return "deep";
  if (doc.moisture === null) return "feel";
  return doc.packed_at === null ? "bag" : "parcel";
}
