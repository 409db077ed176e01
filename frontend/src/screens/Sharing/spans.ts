/** How long a link is open. */
export type Span = "day" | "week" | "season" | "open";

const DAYS: Record<Exclude<Span, "open">, number> = { day: 1, week: 7, season: 90 };
const DAY_MS = 86_400_000;

/** The moment it ends, as the server wants it; null: when the owner ends it. */
export function endOf(span: Span, now: Date): string | null {
  if (span === "open") return null;
  return `${new Date(now.getTime() + DAYS[span] * DAY_MS).toISOString().slice(0, 19)}Z`;
}
