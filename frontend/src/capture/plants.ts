/** Where the plants of a planting stand: rows run along the bed (y), side by side across it (x), in digging order. */
import type { Point, Rows, Shape } from "../db/kinds";

export const MOST_PLANTS = 400;

/**
 * Rows are centred across the bed, plants centred along each row with at least half a spacing left at both ends.
 * Down one row, back up the next, so nobody walks the bed twice. Only places inside the outline; at most 400.
 */
export function layOutPlants(shape: Shape, rows: Rows): Point[] {
  const corners = cornersOf(shape);
  const plants: Point[] = [];
  for (const [at, x] of rowPlaces(corners, rows).entries()) {
    const row = stretches(corners, x).flatMap(([from, to]) => along(from, to, rows.plant_spacing_cm, shape.type));
    if (at % 2 === 1) row.reverse();
    for (const y of row) plants.push([Math.round(x), Math.round(y)]);
  }
  return plants.slice(0, MOST_PLANTS);
}

export function cornersOf(shape: Shape): Point[] {
  if (shape.type === "outline") return shape.points_cm;
  const { width_cm, length_cm } = shape;
  return [[0, 0], [width_cm, 0], [width_cm, length_cm], [0, length_cm]];
}

function rowPlaces(corners: Point[], rows: Rows): number[] {
  const xs = corners.map(([x]) => x);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const first = (left + right - (rows.n_rows - 1) * rows.row_spacing_cm) / 2;
  const places = Array.from({ length: rows.n_rows }, (_, at) => first + at * rows.row_spacing_cm);
  return places.filter((x) => x > left && x < right);
}

/** The parts of the line at x that lie inside the outline, top to bottom (even-odd rule). */
function stretches(corners: Point[], x: number): [number, number][] {
  const cuts: number[] = [];
  corners.forEach(([x1, y1], at) => {
    const [x2, y2] = corners[(at + 1) % corners.length]!;
    // Half-open, so a corner lying exactly on the line is counted once.
    if (x1 <= x !== x2 <= x) cuts.push(y1 + ((x - x1) / (x2 - x1)) * (y2 - y1));
  });
  cuts.sort((a, b) => a - b);
  return cuts.flatMap((cut, at) => (at % 2 === 0 && at + 1 < cuts.length ? [[cut, cuts[at + 1]!] as [number, number]] : []));
}

function along(from: number, to: number, spacing: number, shape: Shape["type"]): number[] {
  // A pot or box shorter than one spacing still holds a plant; the tip of an odd outline does not.
  const least = shape === "rectangle" ? 1 : 0;
  const n = Math.max(least, Math.floor((to - from) / spacing));
  const first = (from + to - (n - 1) * spacing) / 2;
  return Array.from({ length: n }, (_, at) => first + at * spacing);
}
