/** What "more" asks of a plant, as the boxes of a form, and what of it was changed. */
import type { GallRating, LookAlike } from "../../db/kinds.ts";
import { touched } from "../../db/touched.ts";

export interface MoreForm {
  trace: boolean;
  rot: number | null;
  doubt: string;
  examined: number | null;
  damaged: number | null;
  signs: string;
  /** Counted on a pot of a pot test. */
  galls: number | null;
  note: string;
}

export function formOf(doc: GallRating): MoreForm {
  const damage = doc.produce_damage;
  return {
    trace: doc.reading.trace_only,
    rot: doc.root_rot_pct,
    doubt: doc.look_alike ?? "none",
    examined: damage?.n_examined ?? null,
    damaged: damage?.n_damaged ?? null,
    signs: damage?.signs ?? "",
    galls: doc.n_galls,
    note: doc.note,
  };
}

export function isGalled(doc: GallRating): boolean {
  return (doc.reading.grade ?? 0) >= 1;
}

/** More damaged than looked at: these two cannot be kept until one is changed. */
export function tooManyDamaged({ examined, damaged }: MoreForm): boolean {
  return damaged !== null && examined !== null && damaged > examined;
}

export const MOST_GALLS = 5000;

/** No number of galls: it is not kept until it is one. */
export function wrongGalls({ galls }: MoreForm): boolean {
  return galls !== null && !(Number.isInteger(galls) && galls >= 0 && galls <= MOST_GALLS);
}

const within = (value: number | null, low: number, high: number) => (value === null ? null : Math.round(Math.min(high, Math.max(low, value))));

/** Only what was touched since `doc`. */
export function changesOf(doc: GallRating, form: MoreForm): Partial<GallRating> {
  const set: Partial<GallRating> = {
    root_rot_pct: within(form.rot, 0, 100),
    look_alike: form.doubt === "none" ? null : (form.doubt as LookAlike),
    note: form.note.trim(),
  };
  if (!wrongGalls(form)) set.n_galls = form.galls;
  if (!tooManyDamaged(form)) {
    const examined = within(form.examined, 1, 1000);
    set.produce_damage = form.examined && examined ? { n_examined: examined, n_damaged: within(form.damaged ?? 0, 0, 1000)!, signs: form.signs.trim() } : null;
  }
  if (form.trace !== doc.reading.trace_only) set.reading = { ...doc.reading, trace_only: form.trace && isGalled(doc) };
  return touched(doc, set);
}
