// Which plantings stand in a bed on a day. Not for what the roots of a planting show.
import type { Planting, Shown } from "../db/kinds.ts";

/** Whether a planting stands on a day; its last day counts, as on the printed sheet. */
export function stands({ grown }: Planting, day: string): boolean {
  return grown.from_on <= day && (grown.to_on === null || grown.to_on >= day);
}

/** Those that grow in the bed itself: a pot test is a planting of its bed and stands elsewhere. One kept by an older version has no `pots` at all. */
export function inGround(plantings: Shown<"planting">[]): Shown<"planting">[] {
  return plantings.filter(({ doc }) => !doc.pots);
}

/** The planting a sample is most likely taken for: what stands in the bed, the last planted where there are more; null for nothing. */
export function growingIn(bed: string, plantings: Shown<"planting">[], day: string): string | null {
  const found = inGround(plantings).filter(({ doc }) => doc.bed === bed && stands(doc, day));
  const newest = found.sort((a, b) => b.doc.grown.from_on.localeCompare(a.doc.grown.from_on) || b.id.localeCompare(a.id));
  return newest[0]?.id ?? null;
}
