// What a map shows at one plant: its place, its number, and what was read there.
import type { Point, Shape } from "../db/kinds.ts";
import { map as words } from "../text/en/map.ts";
import { fit, halfGap, liesDown, type Edges, type Fit } from "./fit.ts";

export interface Mark {
  key: string;
  plant: number | null;
  at: Point;
  state: "unrated" | "rated" | "missing" | "dead";
  /** More than one when the plant was read more than once. */
  grades: number[];
  /** Read out, and shown in the list form: "Plant 4, grade 3". */
  label: string;
  /** The first or last plant of its row, whose number is written while it has no grade. */
  rowEnd?: boolean;
}

/** What was read at a plant (capture/tally's PlantReadings fits). */
interface Read {
  key: string;
  plant: number | null;
  place: { x_cm: number; y_cm: number };
  grades: number[];
  by: string[];
  state: "rated" | "missing" | "dead";
}

function mark(key: string, plant: number | null, at: Point, nth: number, isMe: (by: string) => boolean, read?: Read): Mark {
  const state = read?.state ?? "unrated";
  const who = (read?.by ?? []).map((by) => (isMe(by) ? words.you : by));
  const said = state === "rated" ? words.grade(read?.grades ?? [], who) : words.state[state];
  return { key, plant, at, state, grades: read?.grades ?? [], label: `${words.plant(plant, nth)}, ${said}` };
}

/** For each plant in digging order, whether the way turns there: it begins or ends a row. */
export function rowEnds(plants: Point[]): boolean[] {
  return plants.map(([x, y], i) => {
    const [before, after] = [plants[i - 1], plants[i + 1]];
    if (!before || !after) return true;
    const bend = Math.hypot(after[0] - 2 * x + before[0], after[1] - 2 * y + before[1]);
    return bend > 0.5 * Math.hypot(after[0] - x, after[1] - y);
  });
}

/**
 * The marks of a planting's plants, with what was read there, then the spots that were read outside of them. `isMe`: whether a
 * name is that of whoever looks, who is told "you".
 */
export function marksOf(plants: Point[], reads: Read[], isMe: (by: string) => boolean): Mark[] {
  const byKey = new Map(reads.map((read) => [read.key, read]));
  const ends = rowEnds(plants);
  const planted = plants.map((at, i) => ({ ...mark(`p${i + 1}`, i + 1, at, i + 1, isMe, byKey.get(`p${i + 1}`)), rowEnd: ends[i]! }));
  const spots = reads.filter((read) => read.plant === null || read.plant > plants.length);
  return [...planted, ...spots.map((read, i) => mark(read.key, read.plant, [read.place.x_cm, read.place.y_cm], i + 1, isMe, read))];
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

const SMALLEST = 10; // px, below it a number in a mark cannot be read in the sun
const LARGEST = 24;
const SMALLEST_DOT = 2;
const RING = 6; // px, how far the ring of the chosen plant reaches beyond its mark
// Room for the name of the bed's top edge and for the start of the numbering.
const LYING: Edges = { left: 28, top: 4, right: 8, bottom: 20 };
const UPRIGHT: Edges = { left: 8, top: 20, right: 8, bottom: 6 };
const NAME_OF_EDGE = 64; // px, the least height in which the top edge of a bed lying down can be named

const edgesOf = (shape: Shape) => (liesDown(shape) ? LYING : UPRIGHT);

/** Whether a mark of this radius can hold a digit; a smaller one is a plain dot. */
export function numberFits(radius: number): boolean {
  return radius >= SMALLEST - 1;
}

export function radiusAt(scale: number, marks: Mark[]): number {
  return Math.min(LARGEST, halfGap(marks.map((mark) => mark.at)) * scale * 0.88);
}

/** The zoom at which marks are large enough to read, 1 when they are so already. */
export function readableZoom(shape: Shape, marks: Mark[], width: number, height: number): number {
  const radius = radiusAt(fit(shape, width, height, edgesOf(shape)).scale, marks);
  return radius >= SMALLEST ? 1 : Math.min(12, (SMALLEST + 2) / Math.max(0.5, radius));
}

/** Where a window of `size` px begins on something from `low` to `high`: in the middle, or around `centre` when it is smaller. */
function windowOn(low: number, high: number, size: number, centre: number): number {
  if (high - low <= size) return (low + high - size) / 2;
  return Math.max(low, Math.min(high - size, centre - size / 2));
}

/** The part of the bed that is shown, `zoom` times larger and kept around `centre` (cm). */
export function viewOf(shape: Shape, marks: Mark[], width: number, height: number, zoom: number, centre?: Point): View {
  const whole = fit(shape, width, height, edgesOf(shape), zoom);
  const radius = Math.max(SMALLEST_DOT, radiusAt(whole.scale, marks));
  const places = marks.map((mark) => whole.at(mark.at));
  // The ring of a plant at the very edge is seen whole.
  const span = (axis: 0 | 1, end: number) => {
    const along = places.map((place) => place[axis]);
    return [Math.min(0, ...along.map((px) => px - radius - RING)), Math.max(end, ...along.map((px) => px + radius + RING))] as const;
  };
  const [left, right] = span(0, whole.width);
  const [top, bottom] = span(1, whole.height);
  const shownHeight = Math.max(whole.turned ? NAME_OF_EDGE : 0, Math.min(height, bottom - top));
  const [x, y] = whole.at(centre ?? [0, 0]);
  return {
    fit: whole,
    radius,
    left: windowOn(left, right, width, x),
    top: windowOn(top, bottom, shownHeight, y),
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
