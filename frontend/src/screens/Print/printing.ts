// A sheet from the server when it answers, else from the Python core on this phone: the same page from the same records.
import { recordsOf } from "../../db/records.ts";
import type { Question } from "../../engine/engine.ts";
import { type Blanks, fetchBlanks, fetchSheet, type SheetKind, type SheetParams, sheetUrl } from "../../sync/sheets.ts";

export type Order = { [K in SheetKind]: { kind: K } & SheetParams[K] }[SheetKind];
export interface Printed {
  pdf: Blob;
  here: boolean; // drawn on this phone
}

const QUESTIONS = { submission: "submission_sheet", "bed-map": "bed_map", "rating-form": "rating_form" } as const;

export async function print(order: Order): Promise<Printed> {
  const { kind, ...params } = order;
  try {
    return { pdf: await fetchSheet(sheetUrl(kind, params as never)), here: false };
  } catch (refused) {
    if ((refused as { status?: number }).status !== 0) throw refused;
    return { pdf: await printHere(kind, params), here: true };
  }
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

function printHere(kind: SheetKind, asked: SheetParams[SheetKind]): Promise<Blob> {
  return askHere<Blob>(QUESTIONS[kind], asked);
}

async function askHere<T>(question: Question, { garden, ...asked }: { garden: string; samples?: string[] }): Promise<T> {
  const { ask } = await import("../../engine/engine.ts");
  const records = await recordsOf(garden);
  return ask<T>(question, { ...asked, records, origin: location.origin, now: new Date().toISOString() });
}

/** Which sentence a failure is. */
export async function reasonOf(error: unknown): Promise<"signIn" | "failed" | "noEngine" | "cannotHere" | { problem: string }> {
  const { EngineProblem, look, NoEngine } = await import("../../engine/engine.ts");
  if (error instanceof EngineProblem) return { problem: error.code };
  if (error instanceof NoEngine) return (await look()).kind === "cannot" ? "cannotHere" : "noEngine";
  const { status } = error as { status?: number };
  return status === 401 || status === 403 ? "signIn" : "failed";
}
