// What the bed form holds and how it becomes a bed: the bounds are those the server keeps, said before sending.
import { cornersOf } from "../../capture/plants.ts";
import { lengthWords, type Units } from "../../capture/lengths.ts";
import type { Bed, Point, Shape } from "../../db/kinds.ts";
import { bedText as words } from "../../text/en/bedform.ts";
import { forms } from "../../text/en/forms.ts";

export const SIDE_CM = { least: 20, most: 5000 };
export const DEPTH_CM = { least: 5, most: 200 };
export const MOST_CORNERS = 40;
const PATH_BETWEEN_BEDS_CM = 50;

export interface BedEntry {
  name: string;
  form: "rectangle" | "outline";
  width_cm: number | null;
  length_cm: number | null;
  points_cm: Point[];
  place: { x_cm: number; y_cm: number };
  depth_cm: number | null;
  soil: string;
  note: string;
}

export type Complaints = { name: string; size: string; depth: string };

export function extent(shape: Shape): { width: number; length: number } {
  const corners = cornersOf(shape);
  return { width: Math.max(...corners.map(([x]) => x)), length: Math.max(...corners.map(([, y]) => y)) };
}

/** Beside the last bed, with a path between, so that beds drawn one after the other lie in a row. */
export function placeBeside(beds: Bed[]): { x_cm: number; y_cm: number } {
  const last = beds.at(-1);
  if (!last) return { x_cm: 0, y_cm: 0 };
  const right = Math.max(...beds.map((bed) => bed.place.x_cm + extent(bed.shape).width));
  return { x_cm: right + PATH_BETWEEN_BEDS_CM, y_cm: last.place.y_cm };
}

function within(value: number | null, { least, most }: { least: number; most: number }): value is number {
  return value !== null && value >= least && value <= most;
}

export function shapeOf(entry: BedEntry): Shape | null {
  if (entry.form === "outline") {
    const fits = entry.points_cm.length >= 3 && entry.points_cm.length <= MOST_CORNERS;
    return fits ? { type: "outline", points_cm: entry.points_cm } : null;
  }
  const { width_cm, length_cm } = entry;
  return within(width_cm, SIDE_CM) && within(length_cm, SIDE_CM) ? { type: "rectangle", width_cm, length_cm } : null;
}

export function complaints(entry: BedEntry, units: Units): Complaints {
  const range = ({ least, most }: { least: number; most: number }) => [lengthWords(least, units), lengthWords(most, units)] as const;
  const depthFits = entry.depth_cm === null || within(entry.depth_cm, DEPTH_CM);
  return {
    name: entry.name.trim() ? "" : forms.needsName,
    size: sizeComplaint(entry, range(SIDE_CM)),
    depth: depthFits ? "" : forms.between(...range(DEPTH_CM)),
  };
}

function sizeComplaint(entry: BedEntry, range: readonly [string, string]): string {
  if (entry.form === "rectangle") return shapeOf(entry) ? "" : words.sides(...range);
  if (entry.points_cm.length < 3) return words.tooFewCorners;
  if (entry.points_cm.length > MOST_CORNERS) return words.tooManyCorners;
  const outside = entry.points_cm.flat().some((cm) => !within(cm, { least: 0, most: SIDE_CM.most }));
  return outside ? words.cornerRange(range[1]) : "";
}

/** A new outline starts at its own top left corner: that point is the bed's origin. */
export function fromOrigin(shape: Shape): Shape {
  if (shape.type === "rectangle") return shape;
  const left = Math.min(...shape.points_cm.map(([x]) => x));
  const top = Math.min(...shape.points_cm.map(([, y]) => y));
  return { type: "outline", points_cm: shape.points_cm.map(([x, y]) => [x - left, y - top]) };
}

export function entryOf(bed: Bed): BedEntry {
  const { name, shape, place, depth_cm, soil, note } = bed;
  const sides = shape.type === "rectangle" ? shape : { width_cm: null, length_cm: null };
  return {
    name,
    form: shape.type,
    width_cm: sides.width_cm,
    length_cm: sides.length_cm,
    points_cm: shape.type === "outline" ? shape.points_cm : [],
    place,
    depth_cm,
    soil,
    note,
  };
}
