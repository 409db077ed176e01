// Puts a bed's shape (cm) into a box of the screen (px), to scale. A bed longer than wide is turned so that its
// long side runs across: that is how it fills the width of a phone.
import type { Point, Shape } from "../db/kinds.ts";

/** The corners of a shape, clockwise from its top left, in cm. */
export function corners(shape: Shape): Point[] {
  if (shape.type === "outline") return shape.points_cm;
  const { width_cm: w, length_cm: l } = shape;
  return [[0, 0], [w, 0], [w, l], [0, l]];
}

/** Width and height of the box around a shape, in cm. */
export function extent(shape: Shape): { width: number; height: number } {
  const points = corners(shape);
  return { width: Math.max(...points.map((p) => p[0])), height: Math.max(...points.map((p) => p[1])) };
}

/** px left free on each side; the sides of the screen, not of the bed. */
export interface Edges {
  left: number;
  top: number;
  right: number;
  bottom: number;
}

export interface Fit {
  turned: boolean;
  /** px for one cm */
  scale: number;
  width: number;
  height: number;
  /** The box around the drawn shape, px. */
  inner: { left: number; top: number; width: number; height: number };
  at(point: readonly [number, number]): Point;
  back(px: readonly [number, number]): Point;
}

/** Whether a bed is drawn lying down, its top edge at the left. */
export function liesDown(shape: Shape): boolean {
  const { width, height } = extent(shape);
  return height > width;
}

/** Fit a shape into `boxWidth` × `boxHeight` px with `margin` px on every side, `zoom` times larger; upright as on paper. */
export function fit(shape: Shape, boxWidth: number, boxHeight: number, margin: number | Edges = 2, zoom = 1, upright = false): Fit {
  const { width, height } = extent(shape);
  const turned = liesDown(shape) && !upright;
  const { left, top, right, bottom } = typeof margin === "number" ? { left: margin, top: margin, right: margin, bottom: margin } : margin;
  const [across, down] = turned ? [height, width] : [width, height];
  const roomX = Math.max(1, boxWidth - left - right);
  const roomY = Math.max(1, boxHeight - top - bottom);
  const scale = Math.min(roomX / across, roomY / down) * zoom;
  return {
    turned,
    scale,
    width: across * scale + left + right,
    height: down * scale + top + bottom,
    inner: { left, top, width: across * scale, height: down * scale },
    at: ([x, y]) => (turned ? [left + y * scale, top + (width - x) * scale] : [left + x * scale, top + y * scale]),
    back: ([px, py]) => (turned ? [width - (py - top) / scale, (px - left) / scale] : [(px - left) / scale, (py - top) / scale]),
  };
}

/** An SVG path through points, closed. */
export function closedPath(points: Point[]): string {
  return `M${points.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L")}Z`;
}

/** Half the distance between the two nearest of some points, in their own unit; Infinity for fewer than two. */
export function halfGap(points: Point[]): number {
  let least = Infinity;
  const sorted = [...points].sort((a, b) => a[0] - b[0]);
  for (const [i, a] of sorted.entries()) {
    for (let j = i + 1; j < sorted.length; j++) {
      const b = sorted[j]!;
      if (b[0] - a[0] >= least) break;
      least = Math.min(least, Math.hypot(a[0] - b[0], a[1] - b[1]));
    }
  }
  return least / 2;
}
