// What fits into a bed on the garden's drawing: its mark, its name (upright or along the bed), its age and count.
import type { Point } from "../db/kinds.ts";

export interface Label {
  mark: { x: number; y: number; r: number } | null;
  name: { text: string; x: number; y: number; turn: boolean } | null;
  lines: { x: number; y: number } | null;
}

const LETTER = 8.2; // px, a letter of the name at 15 px, on average
const LINE = 18; // px
const LARGEST_MARK = 22;
const LEAST_MARK = 9;
const LEAST_LETTERS = 5;

interface Box {
  x: number;
  y: number;
  w: number;
  h: number;
}

/** The largest rectangle that is easily found inside an outline: its box, or the arm of it with the most room. */
function room(points: Point[]): Box {
  const xs = [...new Set(points.map((p) => p[0]))].sort((a, b) => a - b);
  const ys = [...new Set(points.map((p) => p[1]))].sort((a, b) => a - b);
  let best = { x: xs[0]!, y: ys[0]!, w: 0, h: 0 };
  for (const [i, x] of xs.entries())
    for (const x2 of xs.slice(i + 1))
      for (const [j, y] of ys.entries())
        for (const y2 of ys.slice(j + 1)) {
          const inside = [[x + 1, y + 1], [x2 - 1, y + 1], [x + 1, y2 - 1], [x2 - 1, y2 - 1]].every((p) => within(p as Point, points));
          if (inside && (x2 - x) * (y2 - y) > best.w * best.h) best = { x, y, w: x2 - x, h: y2 - y };
        }
  return best;
}

function within([x, y]: Point, points: Point[]): boolean {
  let inside = false;
  for (const [i, a] of points.entries()) {
    const b = points[(i + 1) % points.length]!;
    if (a[1] > y !== b[1] > y && x < ((b[0] - a[0]) * (y - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  }
  return inside;
}

/** Where the parts of a bed's label go. A name longer than its bed is cut; one that has no room is left to the list. */
export function labelFor(name: string, points: Point[]): Label {
  const box = points.length <= 12 ? room(points) : { x: 0, y: 0, w: 0, h: 0 };
  const r = Math.min(LARGEST_MARK, Math.min(box.w, box.h) / 2 - 3);
  if (r < LEAST_MARK) return { mark: null, name: null, lines: null };
  const ways = waysToWrite(box, r).filter(({ fits }) => fits);
  const whole = ways.find(({ along }) => along >= name.length * LETTER);
  const widest = ways.reduce((best, way) => (way.along > best.along ? way : best), { along: 0 } as Way);
  const way = whole ?? widest;
  const text = whole ? name : cut(name, Math.floor(widest.along / LETTER));
  if (!text) return { mark: { x: box.x + box.w / 2, y: box.y + box.h / 2, r }, name: null, lines: null };
  return way.label(text);
}

interface Way {
  /** px there are for the name. */
  along: number;
  fits: boolean;
  label: (text: string) => Label;
}

/** Over the mark, upright below it, beside it; the first is the best. */
function waysToWrite({ x, y, w, h }: Box, r: number): Way[] {
  const [middleX, middleY] = [x + w / 2, y + h / 2];
  const lines = w >= 110 && h >= 2 * r + 4 * LINE ? { x: middleX, y: middleY + r + LINE } : null;
  const under = y + 2 * r + 12; // below the mark at the bed's top end
  const over = (text: string): Label => ({ mark: { x: middleX, y: middleY, r }, name: { text, x: middleX, y: middleY - r - 8, turn: false }, lines });
  const upright = (text: string): Label => ({
    mark: { x: middleX, y: y + r + 6, r },
    name: { text, x: middleX + 5, y: (under + y + h - 4) / 2, turn: true },
    lines: null,
  });
  const beside = (text: string): Label => ({
    mark: { x: x + r + 6, y: middleY, r },
    name: { text, x: x + 2 * r + 12 + (text.length * LETTER) / 2, y: middleY + 5, turn: false },
    lines: null,
  });
  return [
    { along: w - 8, fits: h >= 2 * r + LINE + 8, label: over },
    { along: y + h - under - 4, fits: w >= LINE + 4, label: upright },
    { along: w - 2 * r - 16, fits: true, label: beside },
  ];
}

/** As many whole words as find room, else letters; empty when even those would say nothing. */
function cut(name: string, letters: number): string {
  if (letters < LEAST_LETTERS) return "";
  const head = [...name].slice(0, letters - 1).join("");
  const words = head.slice(0, head.lastIndexOf(" ")).trimEnd();
  return `${(words.length >= LEAST_LETTERS ? words : head).replace(/[\s,.;-]+$/, "")}…`;
}

const READABLE = 30; // px across a bed; below it neither its mark nor its name finds room

/** px for one cm: the whole garden in its box, or as much larger as the middle one of its beds needs to be read. */
export function gardenScale(whole: number, beds: { width: number; height: number }[]): number {
  const narrow = beds.map(({ width, height }) => Math.min(width, height)).sort((a, b) => a - b);
  const middle = narrow[Math.floor(narrow.length / 2)] ?? Infinity;
  return Math.max(whole, READABLE / Math.max(1, middle));
}

/** A round length for the scale bar, about 60 to 160 px long. */
export function scaleBar(scale: number, units: "metric" | "us"): { px: number; words: string } {
  const [one, sign] = units === "us" ? [30.48, "ft"] : [100, "m"];
  const count = [1, 2, 5, 10, 20, 50, 100].find((n) => n * one * scale >= 60) ?? 200;
  return { px: count * one * scale, words: `${count} ${sign}` };
}
