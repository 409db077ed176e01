// What the planting form holds and how it becomes a planting.
import type { Units } from "../../capture/lengths.ts";
import { layOutPlants } from "../../capture/plants.ts";
import type { Bed, Planting, Point, Rows } from "../../db/kinds.ts";
import { forms } from "../../text/en/forms.ts";
import { plantingText as words } from "../../text/en/planting.ts";

export interface PlantingEntry {
  crop: string;
  crop_key: string;
  cultivar: string;
  resistance_code: string;
  from_on: string;
  to_on: string;
  n_rows: number | null;
  row_spacing_cm: number | null;
  plant_spacing_cm: number | null;
  /** Null: as many as fit. */
  n_plants: number | null;
  /** True: the places are drawn from the rows; false: those of the stored planting stay. */
  draws: boolean;
  note: string;
}

export type Complaints = { crop: string; from: string; to: string; places: string };

const FIRST_SPACING_CM: Record<Units, number> = { metric: 50, us: 46 };

/** Rows that fill the bed at half a metre (or a foot and a half): something to see at once, and to change. */
export function firstRows(bed: Bed, units: Units): { n_rows: number; row_spacing_cm: number; plant_spacing_cm: number } {
  const spacing = FIRST_SPACING_CM[units];
  const xs = bed.shape.type === "rectangle" ? [0, bed.shape.width_cm] : bed.shape.points_cm.map(([x]) => x);
  const n_rows = Math.min(60, Math.max(1, Math.floor((Math.max(...xs) - Math.min(...xs)) / spacing)));
  return { n_rows, row_spacing_cm: spacing, plant_spacing_cm: spacing };
}

export function rowsOf(entry: PlantingEntry): Rows | null {
  const { n_rows, row_spacing_cm, plant_spacing_cm } = entry;
  const inside = (value: number | null, least: number, most: number) => value !== null && value >= least && value <= most;
  if (!Number.isInteger(n_rows) || !inside(n_rows, 1, 60)) return null;
  if (!inside(row_spacing_cm, 5, 500) || !inside(plant_spacing_cm, 2, 500)) return null;
  return { n_rows: n_rows!, row_spacing_cm: row_spacing_cm!, plant_spacing_cm: plant_spacing_cm! };
}

export function placesThatFit(entry: PlantingEntry, bed: Bed): Point[] {
  const rows = rowsOf(entry);
  return rows ? layOutPlants(bed.shape, rows) : [];
}

export function complaints(entry: PlantingEntry, plants: Point[]): Complaints {
  return {
    crop: entry.crop.trim() ? "" : words.needsCrop,
    from: entry.from_on ? "" : words.needsDay,
    to: entry.to_on && entry.to_on < entry.from_on ? words.endBeforeStart : "",
    places: entry.draws && plants.length === 0 ? placesComplaint(entry) : "",
  };
}

function placesComplaint(entry: PlantingEntry): string {
  return rowsOf(entry) ? words.nothingFits : forms.between(words.leastRows, words.mostRows);
}

export function setOf(entry: PlantingEntry, plants: Point[]): Partial<Planting> {
  const { crop, crop_key, cultivar, resistance_code, from_on, to_on, note } = entry;
  const words = { crop: crop.trim(), crop_key, cultivar, resistance_code, note };
  const set = { ...words, grown: { from_on, to_on: to_on || null } };
  return entry.draws ? { ...set, rows: rowsOf(entry), plants } : set;
}

export function entryOf(planting: Planting): Partial<PlantingEntry> {
  const { crop, crop_key, cultivar, resistance_code, grown, rows, note } = planting;
  return { crop, crop_key, cultivar, resistance_code, from_on: grown.from_on, to_on: grown.to_on ?? "", ...rows, note, draws: false };
}
