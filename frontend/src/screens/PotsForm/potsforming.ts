// What the form of a pot test holds, and how it becomes a planting whose plants are its pots.
import { layOutPlants } from "../../capture/plants.ts";
import type { Planting, Point, Shape } from "../../db/kinds.ts";
import { plantingText } from "../../text/en/planting.ts";
import { potsFormText as words } from "../../text/en/potsform.ts";

export const MOST_POTS = 20;
export const SOIL_CM3 = { least: 50, most: 20_000 };

export interface PotsEntry {
  crop: string;
  crop_key: string;
  from_on: string;
  to_on: string;
  n_pots: number | null;
  has_blank: boolean;
  blank_pot: number | null;
  soil_cm3_per_pot: number | null;
  soil_sample: string | null;
  note: string;
}

/** Three pots of the bed's soil and a blank; two litres of soil fill three of them. */
export function blankEntry(): PotsEntry {
  return { crop: "", crop_key: "", from_on: "", to_on: "", n_pots: 4, has_blank: true, blank_pot: 4, soil_cm3_per_pot: 600, soil_sample: null, note: "" };
}

export function entryOf({ crop, crop_key, grown, pots, note }: Planting): Partial<PotsEntry> {
  const set = pots && { n_pots: pots.n_pots, has_blank: pots.blank_pot !== null, blank_pot: pots.blank_pot ?? pots.n_pots, soil_cm3_per_pot: pots.soil_cm3_per_pot, soil_sample: pots.soil_sample };
  return { crop, crop_key, from_on: grown.from_on, to_on: grown.to_on ?? "", note, ...set };
}

export interface Complaints {
  crop: string;
  from: string;
  to: string;
  pots: string;
  blank: string;
  soil: string;
}

export function complaints(entry: PotsEntry): Complaints {
  const n = entry.n_pots ?? 0;
  return {
    crop: entry.crop.trim() ? "" : plantingText.needsCrop,
    from: entry.from_on ? "" : plantingText.needsDay,
    to: entry.to_on && entry.to_on < entry.from_on ? plantingText.endBeforeStart : "",
    pots: isWhole(n, 1, MOST_POTS) ? (entry.has_blank && n < 2 ? words.aloneBlank : "") : words.badPots(MOST_POTS),
    blank: !entry.has_blank || isWhole(entry.blank_pot, 1, Math.max(n, 1)) ? "" : words.badBlank(n),
    soil: isWhole(entry.soil_cm3_per_pot, SOIL_CM3.least, SOIL_CM3.most) ? "" : words.badSoil(SOIL_CM3.least, SOIL_CM3.most),
  };
}

function isWhole(value: number | null, least: number, most: number): boolean {
  return value !== null && Number.isInteger(value) && value >= least && value <= most;
}

/** Of an entry that has nothing wrong. `shape`: of the bed, for pots that are new or more. */
export function setOf(entry: PotsEntry, shape: Shape): Partial<Planting> {
  const { crop, crop_key, from_on, to_on, n_pots, has_blank, blank_pot, soil_cm3_per_pot, soil_sample, note } = entry;
  const pots = { n_pots: n_pots!, blank_pot: has_blank ? blank_pot : null, soil_cm3_per_pot: soil_cm3_per_pot!, soil_sample };
  return { crop: crop.trim(), crop_key, grown: { from_on, to_on: to_on || null }, rows: null, plants: potPlaces(shape, n_pots!), pots, note };
}

/** Somewhere inside the bed: pots have a number, and where they stand says nothing. */
export function potPlaces(shape: Shape, n: number): Point[] {
  for (const spacing of [40, 20, 10, 5, 2]) {
    const places = layOutPlants(shape, { n_rows: MOST_POTS, row_spacing_cm: spacing, plant_spacing_cm: spacing });
    if (places.length >= n) return places.slice(0, n);
  }
  return layOutPlants(shape, { n_rows: 1, row_spacing_cm: 5, plant_spacing_cm: 2 }).slice(0, n);
}
