// Which line of a lab's own form is filled with what: the fields its PDF has, and spots a person tapped on its picture.
import type { Fill, FormField, FormSpot, LabForm } from "../../db/kinds.ts";
import type { FormRead } from "../../db/told.ts";

export type Read = FormRead["fields"][number];
export type Match = Pick<FormField, "fill" | "row" | "when" | "words">;

/** A line of the form as a person sees it: a place on a page, and what goes there. */
export interface Line {
  key: string;
  page: number;
  box: [number, number, number, number] | null; // left, top, right, bottom; null when the fields could not be read
  label: string;
  read: Read | null;
  spot: FormSpot | null;
  match: Match | null;
  guess: Match | null;
}

export const WIDTH_PT = 160;
export const SIZE_PT = 10;
const MOST_ROW = 40;
const NEAR_PT = 14; // a thumb is wider than a line of type

/** What is one for each bag; the rest is one for the parcel. */
const PARCEL: Fill[] = ["words", "grower_name", "grower_address", "grower_phone", "grower_email", "garden_name", "garden_place", "lab_name", "account_number", "n_samples", "sent_on"];
export const isOfBag = (fill: Fill): boolean => !PARCEL.includes(fill);

export function linesOf(form: LabForm, read: FormRead | null): Line[] {
  return [...(read ? read.fields.map((one) => ofField(one, form)) : form.fields.map(unread)), ...form.spots.map(ofSpot)];
}

function ofField(read: Read, form: LabForm): Line {
  const found = form.fields.find(({ field }) => field === read.field);
  const guess = read.guess && { ...read.guess, fill: read.guess.fill as Fill, words: "" };
  const box = read.box as Line["box"];
  return { key: `f:${read.field}`, page: read.page, box, label: read.label || read.field, read, spot: null, match: found ? matchOf(found) : null, guess };
}

function unread(one: FormField): Line {
  return { key: `f:${one.field}`, page: 1, box: null, label: one.field, read: null, spot: null, match: matchOf(one), guess: null };
}

function ofSpot(spot: FormSpot, at: number): Line {
  const { page, x_pt, y_pt, width_pt, size_pt } = spot;
  return { key: `s:${at}`, page, box: [x_pt, y_pt - size_pt, x_pt + width_pt, y_pt], label: "", read: null, spot, match: matchOf(spot), guess: null };
}

function matchOf({ fill, row, when, words }: Match): Match {
  return { fill, row, when, words };
}

/** The line a tap means: the one it is in, else the nearest within a thumb's width. */
export function lineAt(lines: Line[], page: number, x: number, y: number): Line | null {
  const near = lines
    .filter((line) => line.page === page && line.box)
    .map((line) => ({ line, away: distance(line.box!, x, y) }))
    .filter(({ away }) => away <= NEAR_PT)
    .sort((a, b) => a.away - b.away);
  return near[0]?.line ?? null;
}

function distance([left, top, right, bottom]: NonNullable<Line["box"]>, x: number, y: number): number {
  return Math.hypot(Math.max(left - x, 0, x - right), Math.max(top - y, 0, y - bottom));
}

/** The form with one line matched anew; null leaves the line empty. */
export function matched(form: LabForm, line: Line, match: Match | null, spot: FormSpot | null = line.spot): LabForm {
  if (!spot) {
    const field = line.key.slice(2);
    const others = form.fields.filter((one) => one.field !== field);
    return { ...form, fields: match ? [...others, { field, ...match }] : others };
  }
  const at = Number(line.key.slice(2));
  const spots = form.spots.filter((_, i) => i !== at);
  return { ...form, spots: match ? [...spots.slice(0, at), { ...spot, ...match }, ...spots.slice(at)] : spots };
}

/** Every line that has a guess and nothing else takes it. */
export function guessed(form: LabForm, lines: Line[]): LabForm {
  return lines.filter(({ match, guess }) => !match && guess).reduce((so_far, line) => matched(so_far, line, line.guess), form);
}

export function newSpot(page: number, x: number, y: number, size: { width_pt: number; height_pt: number }): FormSpot {
  const x_pt = Math.max(0, Math.round(x));
  const width_pt = Math.max(1, Math.min(WIDTH_PT, Math.floor(size.width_pt) - x_pt));
  return { page, x_pt, y_pt: Math.max(0, Math.round(y)), width_pt, size_pt: SIZE_PT, fill: "sample_code", row: 1, when: "", words: "" };
}

/** What is kept of a choice: parts that mean nothing for it are dropped. */
export function plainMatch({ fill, row, when, words }: Match, ticks: boolean): Match {
  return { fill, row: isOfBag(fill) ? Math.min(MOST_ROW, Math.max(1, Math.round(row) || 1)) : 1, when: ticks ? when : "", words: fill === "words" ? words.trim() : "" };
}
