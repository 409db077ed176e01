/** Takes a garden from the server as a file, and brings files to it. The server reads them; this only carries. */
import { ask, json, Refused, unsafe, whole } from "./api";
import { syncNow } from "./loop";
import type { Arrival, SavedFileBrought } from "./wire";

export type { Arrival, SavedFileBrought } from "./wire";

/** What the server takes; a larger file need not travel to be refused. */
export const MOST_GARDEN_BYTES = 200_000_000;
export const MOST_SAVED_BYTES = 100_000_000;

/** The whole garden as the server has it. Throws Refused; status 0 means the server could not be reached. */
export async function fetchGardenFile(garden: string): Promise<Blob> {
  return whole((await ask("GET", `/gardens/${garden}/export.zip`)).blob());
}

/** What a garden's file would bring. Changes nothing. */
export function lookAtGardenFile(file: Blob): Promise<Arrival> {
  return send<Arrival>("/arrivals", file, "application/zip", MOST_GARDEN_BYTES);
}

/** Bring it; this phone then fetches what is new. */
export async function bringGardenFile(file: Blob): Promise<Arrival> {
  const done = await send<Arrival>("/arrivals?apply=1", file, "application/zip", MOST_GARDEN_BYTES);
  syncNow();
  return done;
}

/** Bring what a helper's phone saved to a file. */
export async function bringSavedFile(garden: string, file: Blob): Promise<SavedFileBrought> {
  const done = await send<SavedFileBrought>(`/gardens/${garden}/saved-files`, file, "application/json", MOST_SAVED_BYTES);
  syncNow();
  return done;
}

async function send<T>(path: string, file: Blob, kind: string, most: number): Promise<T> {
  if (file.size > most) throw new Refused(413, "archive_too_large");
  return json<T>(await unsafe("POST", path, file, { "Content-Type": kind }));
}
