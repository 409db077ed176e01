/** What stands in a bed now, and which check is the newest. */
import type { Shown } from "../../db/kinds.ts";

/** The plantings growing on a day, newest first; when nothing grows, the one that ended last (its roots can still be dug). */
export function currentOf(plantings: Shown<"planting">[], day: string): Shown<"planting">[] {
  const newest = [...plantings].sort((a, b) => b.doc.grown.from_on.localeCompare(a.doc.grown.from_on) || b.id.localeCompare(a.id));
  const growing = newest.filter(({ doc }) => doc.grown.from_on <= day && (doc.grown.to_on === null || doc.grown.to_on >= day));
  return growing.length > 0 ? growing : newest.slice(0, 1);
}

export function newestFirst(a: Shown<"root_check">, b: Shown<"root_check">): number {
  return b.doc.checked_on.localeCompare(a.doc.checked_on) || b.id.localeCompare(a.id);
}
