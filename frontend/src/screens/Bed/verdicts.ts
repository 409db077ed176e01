/** Sorts what was said of a bed by what it is about, in the order it is read. */
import type { BedTold, Line, Roots } from "../../db/told.ts";

const ORDER: Line["about"][] = ["roots", "next", "pattern", "species", "sample", "watch"];

export interface Group {
  about: Line["about"];
  lines: Line[];
}

export function grouped(lines: Line[]): Group[] {
  return ORDER.map((about) => ({ about, lines: lines.filter((line) => line.about === about) })).filter(({ lines }) => lines.length > 0);
}

/** The roots of a bed where at least one plant has a grade. */
export function rated(told: BedTold | undefined): (Roots & { mean: number }) | null {
  const roots = told?.roots;
  return roots && roots.mean !== null ? { ...roots, mean: roots.mean } : null;
}
