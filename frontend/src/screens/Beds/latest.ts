/** The latest root check of a bed that has a rated plant, and what it says. Reads one check's ratings per bed, no more. */
import { byPlant, tally } from "../../capture/tally.ts";
import type { GallScale, Shown } from "../../db/kinds.ts";
import { children } from "../../db/read.ts";

export interface Latest {
  check: string;
  on: string;
  mean: number;
  n: number;
  /** How many plants stood there; null when nobody knows. */
  of: number | null;
  /** The plants were picked for their looks, so the mean says little of the bed. */
  picked: boolean;
  scale: GallScale;
}

/** The root checks of every bed, newest first, by the bed's id. */
export function checksByBed(plantings: Shown<"planting">[], checks: Shown<"root_check">[]): Map<string, Shown<"root_check">[]> {
  const bedOf = new Map(plantings.map(({ id, doc }) => [id, doc.bed]));
  const found = new Map<string, Shown<"root_check">[]>();
  for (const check of [...checks].sort(newestFirst)) {
    const bed = bedOf.get(check.doc.planting);
    if (bed) found.set(bed, [...(found.get(bed) ?? []), check]);
  }
  return found;
}

function newestFirst(a: Shown<"root_check">, b: Shown<"root_check">): number {
  return b.doc.checked_on.localeCompare(a.doc.checked_on) || b.id.localeCompare(a.id);
}

/** Follow the latest check with a rated plant; a check that was only begun gives way to the one before it. */
export function followLatest(
  checks: Shown<"root_check">[],
  nPlants: (check: Shown<"root_check">) => number,
  tell: (latest: Latest | null) => void,
): () => void {
  const stops: (() => void)[] = [];
  const look = (i: number) => {
    const check = checks[i];
    if (!check) return tell(null);
    let passed = false;
    stops[i] = children(check.garden, "gall_rating", check.id).subscribe((ratings) => {
      if (!ratings) return;
      const { mean, n_rated } = tally(byPlant(ratings));
      if (mean !== null) return tell(latestOf(check, mean, n_rated, nPlants(check)));
      if (!passed) look(i + 1);
      passed = true;
    });
  };
  look(0);
  return () => stops.forEach((stop) => stop());
}

function latestOf({ id, doc }: Shown<"root_check">, mean: number, n: number, laidOut: number): Latest {
  const of = doc.n_plants_stood ?? (laidOut || null);
  return { check: id, on: doc.checked_on, mean, n, of, picked: doc.chosen.how === "worst_looking", scale: doc.gall_scale };
}
