/** Where counts stand on one shared scale from nought; it lays out numbers it is given and works out none. */
import type { SeriesTold } from "../db/told.ts";

type Count = SeriesTold["points"][number];
export type Spread = { low: number; high: number };

/** The end of the scale: the largest thing drawn, rounded up to 1, 2 or 5 with noughts. */
export function endOf(series: SeriesTold[], spread: Spread | null): number {
  const drawn = series.flatMap(({ points }) => points.flatMap(({ value, high, bound }) => [value ?? 0, high ?? 0, bound ?? 0]));
  const most = Math.max(1, spread?.high ?? 0, ...drawn);
  const ten = 10 ** Math.floor(Math.log10(most));
  return [1, 2, 5, 10].map((step) => step * ten).find((end) => end >= most) ?? most;
}

/** A count as it is drawn: a dot with its range, an open sign up to its bound, or nothing. */
export function drawn({ value, low, high, bound }: Count): { kind: "dot" | "open" | "none"; at: number; from: number; to: number } {
  if (bound !== null) return { kind: "open", at: bound, from: 0, to: bound };
  if (value !== null) return { kind: "dot", at: value, from: low ?? value, to: high ?? value };
  return { kind: "none", at: 0, from: 0, to: 0 };
}

/** A number of a count in words: "1,250", "12", "0.4". */
export function countWords(number: number): string {
  return number.toLocaleString("en-GB", { maximumSignificantDigits: 3 });
}
