/** The running count and mean of a root check: the only sums the phone does itself. Intervals come from the Python core. */
import type { GallRating } from "../db/kinds";

export interface Tally {
  n_rated: number; // plants with a grade
  n_missing: number;
  n_dead: number;
  mean: number | null; // of the plants' grades; a plant read twice counts once, with the mean of its readings
  lowest: number | null;
  highest: number | null;
  by_grade: number[]; // readings with grade 0..10
}

/** One plant and everything that was read on it, oldest first. */
export interface PlantReadings {
  key: string;
  plant: number | null;
  place: { x_cm: number; y_cm: number };
  ids: string[];
  grades: number[];
  by: string[]; // who read each grade
  state: "rated" | "missing" | "dead";
}

/** The key of a plant, or of a spot when its plants were never laid out. */
export function plantKey(place: GallRating["place"]): string {
  return place.plant === null ? `s${place.x_cm}-${place.y_cm}` : `p${place.plant}`;
}

/** Readings by plant. Two people who rated one plant without a signal are two readings of it, never one overwritten. */
export function byPlant(ratings: { id: string; by: string; doc: GallRating }[]): PlantReadings[] {
  const plants = new Map<string, PlantReadings>();
  const inTime = [...ratings].sort((a, b) => a.doc.rated_at.localeCompare(b.doc.rated_at) || a.id.localeCompare(b.id));
  for (const { id, by, doc } of inTime) {
    const { place, reading } = doc;
    const key = plantKey(place);
    const entry = plants.get(key) ?? { key, plant: place.plant, place, ids: [], grades: [], by: [], state: reading.state };
    entry.ids.push(id);
    if (reading.state === "rated" && reading.grade !== null) {
      entry.grades.push(reading.grade);
      entry.by.push(by);
    }
    entry.state = entry.grades.length > 0 ? "rated" : reading.state;
    plants.set(key, entry);
  }
  return [...plants.values()];
}

const average = (numbers: number[]) => numbers.reduce((sum, one) => sum + one, 0) / numbers.length;

export function tally(plants: PlantReadings[]): Tally {
  const rated = plants.flatMap(({ grades }) => (grades.length > 0 ? [grades] : []));
  const every = rated.flat();
  const count = (state: PlantReadings["state"]) => plants.filter((plant) => plant.state === state).length;
  return {
    n_rated: rated.length,
    n_missing: count("missing"),
    n_dead: count("dead"),
    mean: rated.length > 0 ? average(rated.map(average)) : null,
    lowest: every.length > 0 ? Math.min(...every) : null,
    highest: every.length > 0 ? Math.max(...every) : null,
    by_grade: Array.from({ length: 11 }, (_, grade) => every.filter((one) => one === grade).length),
  };
}
