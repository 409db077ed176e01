// What the bed form holds and how it becomes a bed: the bounds are those the server keeps, said before sending.
import { cornersOf } from "../../capture/plants.ts";
import { CM_PER_INCH, lengthWords, type Units } from "../../capture/lengths.ts";
import type { Bed, Point, Shape } from "../../db/kinds.ts";
import { bedText as words } from "../../text/en/bedform.ts";
import { forms } from "../../text/en/forms.ts";

export const SIDE_CM = { least: 20, most: 5000 };
export const DEPTH_CM = { least: 5, most: 200 };
export const MOST_CORNERS = 40;
const PATH_BETWEEN_BEDS_CM = 50;
const ROW_CM = 1000;

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

/** `size` is of an outline; a rectangle has its two sides. */
export type Complaints = { name: string; size: string; width: string; length: string; depth: string };
export const NO_COMPLAINTS: Complaints = { name: "", size: "", width: "", length: "", depth: "" };

export function extent(shape: Shape): { width: number; length: number } {
  const corners = cornersOf(shape);
  return { width: Math.max(...corners.map(([x]) => x)), length: Math.max(...corners.map(([, y]) => y)) };
}

/** Beside the last bed, with a path between; below all beds once the row is about ten metres long. */
export function placeBeside(beds: Bed[]): { x_cm: number; y_cm: number } {
  const last = beds.at(-1);
  if (!last) return { x_cm: 0, y_cm: 0 };
  const top = (bed: Bed) => bed.place.y_cm;
  const bottom = (bed: Bed) => bed.place.y_cm + extent(bed.shape).length;
  const row = beds.filter((bed) => top(bed) < bottom(last) && bottom(bed) > top(last));
  const right = Math.max(...row.map((bed) => bed.place.x_cm + extent(bed.shape).width)) + PATH_BETWEEN_BEDS_CM;
  if (right <= ROW_CM) return { x_cm: right, y_cm: top(last) };
  return { x_cm: Math.min(...beds.map((bed) => bed.place.x_cm)), y_cm: Math.max(...beds.map(bottom)) + PATH_BETWEEN_BEDS_CM };
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
  const depthFits = entry.depth_cm === null || within(entry.depth_cm, DEPTH_CM);
  const range = bounds(SIDE_CM, units);
  const ofSide = (cm: number | null) => (entry.form === "outline" || within(cm, SIDE_CM) ? "" : forms.between(...range));
  return {
    name: entry.name.trim() ? "" : forms.needsName,
    size: entry.form === "outline" ? outlineComplaint(entry.points_cm, range[1]) : "",
    width: ofSide(entry.width_cm),
    length: ofSide(entry.length_cm),
    depth: depthFits ? "" : forms.between(...bounds(DEPTH_CM, units)),
  };
}

/** Both ends in words; where feet are used the far end is said in whole feet, a little short of it. */
function bounds({ least, most }: { least: number; most: number }, units: Units): [string, string] {
  const feet = Math.floor(most / (CM_PER_INCH * 12));
  return [lengthWords(least, units), units === "us" ? `${feet} ft` : lengthWords(most, units)];
}

function outlineComplaint(points: Point[], most: string): string {
  if (points.length < 3) return words.tooFewCorners;
  if (points.length > MOST_CORNERS) return words.tooManyCorners;
  const outside = points.flat().some((cm) => !within(cm, { least: 0, most: SIDE_CM.most }));
  return outside ? words.cornerRange(most) : "";
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
