// Which line of a lab's own form is filled with what: the fields its PDF has, and spots a person tapped on its picture.
import type { Fill, FormField, FormSpot, LabForm } from "../../db/kinds.ts";
import type { FormRead } from "../../db/told.ts";
import { ownFormText } from "../../text/en/ownform.ts";

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
  /** None: it stays empty. Several: one for each answer, where the form offers answers of its own. */
  matches: Match[];
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
  const names = [...new Set(form.fields.map(({ field }) => field))];
  return [...(read ? read.fields.map((one) => ofField(one, form)) : names.map((name) => unread(name, form))), ...form.spots.map(ofSpot)];
}

function ofField(read: Read, form: LabForm): Line {
  const guess = read.guess && { ...read.guess, fill: read.guess.fill as Fill, words: "" };
  const box = read.box as Line["box"];
  return { key: `f:${read.field}`, page: read.page, box, label: read.label || read.field, read, spot: null, matches: matchesOf(form, read.field), guess };
}

function unread(name: string, form: LabForm): Line {
  return { key: `f:${name}`, page: 1, box: null, label: name, read: null, spot: null, matches: matchesOf(form, name), guess: null };
}

function ofSpot(spot: FormSpot, at: number): Line {
  const { page, x_pt, y_pt, width_pt, size_pt } = spot;
  return { key: `s:${at}`, page, box: [x_pt, y_pt - size_pt, x_pt + width_pt, y_pt], label: "", read: null, spot, matches: [matchOf(spot)], guess: null };
}

function matchesOf(form: LabForm, name: string): Match[] {
  return form.fields.filter(({ field }) => field === name).map(matchOf);
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

/** The form with one line matched anew; no match leaves the line empty. A spot has one at most. */
export function matched(form: LabForm, line: Line, matches: Match[], spot: FormSpot | null = line.spot): LabForm {
  if (!spot) {
    const field = line.key.slice(2);
    const others = form.fields.filter((one) => one.field !== field);
    return { ...form, fields: [...others, ...matches.map((match) => ({ field, ...match }))] };
  }
  const at = Number(line.key.slice(2));
  const spots = form.spots.filter((_, i) => i !== at);
  return { ...form, spots: [...spots.slice(0, at), ...matches.slice(0, 1).map((match) => ({ ...spot, ...match })), ...spots.slice(at)] };
}

/** It has a guess and nothing else. Where the form offers answers of its own, a person says which is which. */
export function isGuessed({ matches, guess, read }: Line): boolean {
  return matches.length === 0 && guess !== null && !(read && hasOwnAnswers(read) && hasAnswers(guess.fill));
}

/** One of these is chosen in the lab's own words. */
export function hasOwnAnswers({ type, options }: Read): boolean {
  return (type === "choice" || type === "radio") && options.length > 0;
}

/** Ours are a few words to choose from. */
export function hasAnswers(fill: Fill): boolean {
  return fill in ownFormText.answers;
}

/** Every line that has a guess and nothing else takes it. */
export function guessed(form: LabForm, lines: Line[]): LabForm {
  return lines.reduce((so_far, line) => (isGuessed(line) ? matched(so_far, line, [line.guess!]) : so_far), form);
}

/** Another PDF of the lab: what was matched stays where it has a line of the same name. */
export function emptied(paper: string, before: LabForm | null, read: FormRead | null): LabForm {
  const names = new Set(read?.fields.map(({ field }) => field));
  return { paper, fields: (before?.fields ?? []).filter(({ field }) => names.has(field)), spots: [] };
}

export function newSpot(page: number, x: number, y: number, size: { width_pt: number; height_pt: number }): FormSpot {
  const x_pt = Math.max(0, Math.round(x));
  const width_pt = Math.max(1, Math.min(WIDTH_PT, Math.floor(size.width_pt) - x_pt));
  return { page, x_pt, y_pt: Math.max(0, Math.round(y)), width_pt, size_pt: SIZE_PT, fill: "sample_code", row: 1, when: "", words: "" };
}

/** What is kept of a choice: parts that mean nothing for it are dropped. */
export function plainMatch({ fill, row, when, words }: Match): Match {
  return { fill, row: isOfBag(fill) ? Math.min(MOST_ROW, Math.max(1, Math.round(row) || 1)) : 1, when: hasAnswers(fill) ? when : "", words: fill === "words" || (hasAnswers(fill) && when) ? words.trim() : "" };
}
