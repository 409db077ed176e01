// The grade scales of the table, as keys and lines show them. A rating never travels without its scale.
import type { GallScale } from "../db/kinds.ts";
import scales from "$tables/scales.json";

export interface GradeWords {
  grade: number;
  short: string;
  words: string;
  /** Share of the roots galled that the grade stands for; only the linear scale has one for every grade. */
  percent: number | null;
}

interface Row {
  grade: number;
  short: string;
  words: string;
  anchor_pct?: number | null;
}

export function gradesOf(scale: GallScale): GradeWords[] {
  const drawn = scale === "pct10";
  return (scales[scale].grades as Row[]).map(({ grade, short, words, anchor_pct }) => ({
    grade,
    short,
    words,
    percent: drawn ? (anchor_pct ?? null) : null,
  }));
}

export function scaleName(scale: GallScale): string {
  return scales[scale].name;
}

/** Whether equal steps of the scale mean equal steps of galling, so that a mean is a mean of more than ranks. */
export function isLinear(scale: string): boolean {
  return scales[scale as GallScale]?.linear ?? false;
}

export function gradeWords(scale: GallScale, grade: number): GradeWords | undefined {
  return gradesOf(scale)[grade];
}
