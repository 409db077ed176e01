/** A sheet from the server when it answers, else from the Python core on this phone: the same page from the same records. */
import { base64 } from "./db/base64.ts";
import type { LabProfile, Shown, SoilSample } from "./db/kinds.ts";
import { readPaper } from "./db/papers.ts";
import { type PlainRecord, recordsOf } from "./db/records.ts";
import type { FormRead, LabelSheet } from "./db/told.ts";
import type { Question } from "./engine/engine.ts";
import { fetchFormRead } from "./sync/forms.ts";
import { type Blanks, fetchBlanks, fetchLabelSheets, fetchSheet, type SheetKind, type SheetParams, sheetUrl } from "./sync/sheets.ts";

export type Order = { [K in SheetKind]: { kind: K } & SheetParams[K] }[SheetKind];
export interface Printed {
  pdf: Blob;
  here: boolean; // drawn on this phone
}

/** What this phone can say by itself without asking anybody; `code` as the core's own. */
export class NotHere extends Error {
  constructor(readonly code: "form_not_matched" | "form_not_here") {
    super(code);
    this.name = "NotHere";
  }
}

const QUESTIONS: Record<SheetKind, Question> = {
  submission: "submission_sheet",
  labels: "labels",
  "packing-slip": "packing_slip",
  "lab-form": "lab_form",
  pots: "pots_sheet",
  "bed-map": "bed_map",
  "rating-form": "rating_form",
};

export async function print(order: Order): Promise<Printed> {
  const { kind, ...params } = order;
  return serverFirst<Printed>(
    async () => ({ pdf: await fetchSheet(sheetUrl(kind, params as never)), here: false }),
    async () => ({ pdf: await printHere(order), here: true }),
  );
}

/** The lines of a parcel's sheet that would print empty; null when nobody can say. `alone`: no server will answer. */
export async function blanksOf(garden: string, samples: string[], alone: boolean): Promise<Blanks | null> {
  try {
    if (!alone) return await fetchBlanks(garden, samples);
  } catch (refused) {
    if ((refused as { status?: number }).status !== 0) return null;
  }
  return askHere<Blanks>("submission_blanks", { garden, samples }).catch(() => null);
}

export function labelSheets(garden: string): Promise<LabelSheet[]> {
  return serverFirst(() => fetchLabelSheets(garden), async () => (await core())<LabelSheet[]>("label_sheets", {}));
}

/** The empty places of a lab's own form. */
export function readForm(garden: string, pdf: ArrayBuffer): Promise<FormRead> {
  return serverFirst(() => fetchFormRead(garden, pdf), async () => (await core())<FormRead>("form_fields", { pdf: base64(pdf) }));
}

async function serverFirst<T>(there: () => Promise<T>, here: () => Promise<T>): Promise<T> {
  try {
    return await there();
  } catch (refused) {
    if ((refused as { status?: number }).status !== 0) throw refused;
    return here();
  }
}

async function core() {
  return (await import("./engine/engine.ts")).ask;
}

async function printHere({ kind, ...asked }: Order): Promise<Blob> {
  if (kind !== "lab-form") return askHere<Blob>(QUESTIONS[kind], asked);
  const { garden, samples } = asked as SheetParams["lab-form"];
  return askHere<Blob>("lab_form", { ...asked, pdf: base64(await formOf(garden, await recordsOf(garden), samples[0]!)) });
}

/** The bytes of the form that a sample's lab wants filled. */
async function formOf(garden: string, records: PlainRecord[], sample: string): Promise<ArrayBuffer> {
  const find = <T>(id: string | null | undefined) => records.find((record) => record.id === id && !record.deleted)?.doc as T | undefined;
  const lab = find<LabProfile>(find<SoilSample>(sample)?.lab_profile);
  if (!lab?.form) throw new NotHere("form_not_matched");
  const doc = find<Shown<"paper">["doc"]>(lab.form.paper);
  const bytes = doc && (await readPaper({ garden, doc }));
  if (!bytes) throw new NotHere("form_not_here");
  return bytes;
}

async function askHere<T>(question: Question, { garden, ...asked }: { garden: string; [more: string]: unknown }): Promise<T> {
  const ask = await core();
  const records = await recordsOf(garden);
  return ask<T>(question, { ...asked, records, origin: location.origin, now: new Date().toISOString() });
}

/** Which sentence a failure is. */
export async function reasonOf(error: unknown): Promise<"signIn" | "failed" | "noEngine" | "cannotHere" | { problem: string }> {
  const { EngineProblem, look, NoEngine } = await import("./engine/engine.ts");
  if (error instanceof EngineProblem || error instanceof NotHere) return { problem: error.code };
  if (error instanceof NoEngine) return (await look()).kind === "cannot" ? "cannotHere" : "noEngine";
  const { status, code } = error as { status?: number; code?: string };
  if (status === 422 && code) return { problem: code };
  return status === 401 || status === 403 ? "signIn" : "failed";
}
