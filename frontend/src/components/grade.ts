// The look of a grade: its colour from the table, its digit, never one without the other.
import colours from "$tables/grade_colours.json";

/** Fill and ink of a grade or a mean of grades [0..10]. */
export function gradeLook(value: number): { fill: string; ink: string } {
  const i = Math.min(10, Math.max(0, Math.round(value)));
  return { fill: colours.fills[i] ?? "#fff", ink: colours.inks[i] ?? "#000" };
}

/** A mean as people say it, one decimal: "3.4". A single grade stays whole. */
export function meanWords(mean: number): string {
  return mean.toFixed(1);
}
