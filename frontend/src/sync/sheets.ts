/** Printed sheets come from the server; this knows their addresses and fetches them. */
import type { LabelSheet } from "../db/told";
import { ask, getJson, ROOT, whole } from "./api";
import type { Blanks } from "./wire";

export type { Blanks } from "./wire";

export interface SheetParams {
  submission: { garden: string; samples: string[]; paper: "a4" | "letter" };
  labels: { garden: string; samples: string[]; sheet: string; first: number };
  "packing-slip": { garden: string; samples: string[]; paper: "a4" | "letter" };
  "lab-form": { garden: string; samples: string[] };
  pots: { garden: string; planting: string; paper: "a4" | "letter" };
  "bed-map": { garden: string; root_check: string; paper: "a4" | "letter" };
  "rating-form": { garden: string; planting: string; scale: string; paper: "a4" | "letter" };
}
export type SheetKind = keyof SheetParams;

export function sheetUrl<S extends SheetKind>(kind: S, params: SheetParams[S]): string {
  const { garden, ...rest } = params;
  const query = new URLSearchParams(Object.entries(rest).map(([key, value]) => [key, String(value)]));
  return `${ROOT}/gardens/${garden}/sheets/${kind}.pdf?${query}`;
}

/** Throws Refused; status 0 means the server could not be reached. */
export async function fetchSheet(url: string): Promise<Blob> {
  return whole((await ask("GET", url.slice(ROOT.length))).blob());
}

/** Which lines of a parcel's sheet would print empty. Throws Refused; status 0 means the server could not be reached. */
export function fetchBlanks(garden: string, samples: string[]): Promise<Blanks> {
  return getJson<Blanks>(`/gardens/${garden}/sheets/submission/blanks?samples=${samples.join(",")}`);
}

/** The sheets of labels that can be printed on, by their measures. Throws Refused. */
export function fetchLabelSheets(garden: string): Promise<LabelSheet[]> {
  return getJson<LabelSheet[]>(`/gardens/${garden}/sheets/labels`);
}
