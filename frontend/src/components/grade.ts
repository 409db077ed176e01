// The look of a grade: its colour from the table, and how far its disc reaches. Digits never stand on the colour: not
// every grade's colour leaves 7:1 for black or for white, so they stand on a plate of paper with the colour around it.
import colours from "$tables/grade_colours.json";

/** Radius of the plate the digit stands on, as a share of the disc's largest radius. */
export const PLATE = 0.62;
const LEAST_REACH = 0.84;

/** Fill of a grade or a mean of grades [0..10], and the share of the largest radius its disc reaches: more galls, larger. */
export function gradeLook(value: number): { fill: string; reach: number } {
  const within = Math.min(10, Math.max(0, value));
  return { fill: colours.fills[Math.round(within)] ?? "#fff", reach: LEAST_REACH + ((1 - LEAST_REACH) * within) / 10 };
}

/** Size of what is written on the plate of a disc with radius `r`, so that it stays on the plate. */
export function plateText(text: string, r: number): number {
  const share = [1.2, 1.2, 0.9, 0.76][text.length] ?? 0.6;
  return Math.min(20, r * share);
}

/** A mean as people say it, one decimal: "3.4". A half goes to the even tenth, as in the sentences of the core: one page never says 5.2 and 5.3. */
export function meanWords(mean: number): string {
  return (mean % 1 === 0.25 ? mean - 0.05 : mean).toFixed(1);
}
