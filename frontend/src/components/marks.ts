// What a map shows at one plant: its place, its number, and what was read there.
import type { Point, Shape } from "../db/kinds.ts";
import { map as words } from "../text/en/map.ts";
import { fit, halfGap, type Fit } from "./fit.ts";

export interface Mark {
  key: string;
  plant: number | null;
  at: Point;
  state: "unrated" | "rated" | "missing" | "dead";
  /** More than one when the plant was read more than once. */
  grades: number[];
  /** Read out, and shown in the list form: "Plant 4, grade 3". */
  label: string;
}

/** What was read at a plant (capture/tally's PlantReadings fits). */
interface Read {
  key: string;
  plant: number | null;
  place: { x_cm: number; y_cm: number };
  grades: number[];
  state: "rated" | "missing" | "dead";
}

function mark(key: string, plant: number | null, at: Point, nth: number, read?: Read): Mark {
  const state = read?.state ?? "unrated";
  const said = state === "rated" ? words.grade(read?.grades ?? []) : words.state[state];
  return { key, plant, at, state, grades: read?.grades ?? [], label: `${words.plant(plant, nth)}, ${said}` };
}

/** The marks of a planting's plants, with what was read there, then the spots that were read outside of them. */
export function marksOf(plants: Point[], reads: Read[]): Mark[] {
  const byKey = new Map(reads.map((read) => [read.key, read]));
  const planted = plants.map((at, i) => mark(`p${i + 1}`, i + 1, at, i + 1, byKey.get(`p${i + 1}`)));
  const spots = reads.filter((read) => read.plant === null || read.plant > plants.length);
  return [...planted, ...spots.map((read, i) => mark(read.key, read.plant, [read.place.x_cm, read.place.y_cm], i + 1, read))];
}

export interface View {
  fit: Fit;
  radius: number;
  /** Left and top of what is shown, px of the drawn bed. */
  left: number;
  top: number;
  width: number;
  height: number;
}

const SMALLEST = 11; // px, below it a number in a mark cannot be read in the sun
const LARGEST = 24;
const MARGIN = 6;

export function radiusAt(scale: number, marks: Mark[]): number {
  return Math.min(LARGEST, halfGap(marks.map((mark) => mark.at)) * scale * 0.88);
}

/** The zoom at which marks are large enough to read, 1 when they are so already. */
export function readableZoom(shape: Shape, marks: Mark[], width: number, height: number): number {
  const radius = radiusAt(fit(shape, width, height, MARGIN).scale, marks);
  return radius >= SMALLEST ? 1 : Math.min(12, (SMALLEST + 2) / Math.max(0.5, radius));
}

const between = (low: number, value: number, high: number) => Math.max(low, Math.min(high, value));

/** The part of the bed that is shown, `zoom` times larger and kept around `centre` (cm). */
export function viewOf(shape: Shape, marks: Mark[], width: number, height: number, zoom: number, centre?: Point): View {
  const whole = fit(shape, width, height, MARGIN, zoom);
  const shownHeight = Math.min(height, whole.height);
  const [x, y] = whole.at(centre ?? [0, 0]);
  const spareX = whole.width - width;
  const spareY = whole.height - shownHeight;
  return {
    fit: whole,
    radius: Math.max(7, radiusAt(whole.scale, marks)),
    left: spareX > 0 && centre ? between(0, x - width / 2, spareX) : spareX / 2,
    top: spareY > 0 && centre ? between(0, y - shownHeight / 2, spareY) : 0,
    width,
    height: shownHeight,
  };
}

/** The mark nearest to a place in cm, if it lies within `reach` cm. */
export function nearest(marks: Mark[], [x, y]: Point, reach: number): Mark | undefined {
  const far = (mark: Mark) => Math.hypot(mark.at[0] - x, mark.at[1] - y);
  const found = [...marks].sort((a, b) => far(a) - far(b))[0];
  return found && far(found) <= reach ? found : undefined;
}
