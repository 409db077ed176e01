/** Fetches what others wrote, and reads a garden anew when the server's history is not the one this phone knew. */
import { acksLeft, progressOf, storePage } from "../db/feed";
import { beginReread, startAfresh, storeShadow, swapIn } from "../db/rebuild";
import type { House } from "../db/schema";
import { getJson, Refused } from "./api";
import { ownGardens } from "./owner";
import type { Pulled } from "./wire";

const PAGE = 500;
const REREADS = 3;

/** Reads to the end. A second round only when an acknowledged change has not come back with the first. */
export async function pull(db: House, garden: string): Promise<void> {
  for (let round = 0; round < 2; round += 1) {
    const from = (await progressOf(db, garden)).cursor;
    for (;;) {
      const { cursor, high } = await progressOf(db, garden);
      const page = await fetchPage(garden, cursor, high);
      await storePage(db, garden, page, from);
      if (!page.more) break;
    }
    if ((await acksLeft(db, garden)) === 0) return;
  }
}

/** True when the trouble was one of history and is mended, so the garden can be tried again. */
export async function mend(db: House, garden: string, error: unknown): Promise<boolean> {
  if (!(error instanceof Refused)) return false;
  if (error.status === 409 && error.code === "history_changed") return reread(db, garden, true);
  if (error.status === 410) return reread(db, garden, false);
  if (!isUnknown(error) || (await progressOf(db, garden)).high === null) return false;
  // Unknown also to whoever has signed in in another tab meanwhile: ask who we are, and what is ours, before believing it.
  if ((await ownGardens(db)).some(({ id }) => id === garden)) return false;
  await startAfresh(db, garden);
  return true;
}

/** A web server in front that is set wrong says 404 too, in its own words. */
export function isUnknown(error: Refused): boolean {
  return error.status === 404 && error.code === "not_found";
}

export async function reread(db: House, garden: string, historyLost: boolean): Promise<boolean> {
  for (let attempt = 0; attempt < REREADS; attempt += 1) {
    try {
      await swapIn(db, garden, await readAll(db, garden), historyLost);
      return true;
    } catch (error) {
      // Restored once more while we were reading: begin again.
      if (!(error instanceof Refused) || error.status !== 409) throw error;
    }
  }
  return false;
}

async function readAll(db: House, garden: string): Promise<{ cursor: number; high: string | null }> {
  await beginReread(db, garden);
  let at: { cursor: number; high: string | null } = { cursor: 0, high: null };
  for (;;) {
    const page = await fetchPage(garden, at.cursor, at.high);
    await storeShadow(db, garden, page.records);
    at = { cursor: page.cursor, high: page.head };
    if (!page.more) return at;
  }
}

function fetchPage(garden: string, cursor: number, high: string | null): Promise<Pulled> {
  const mark = high === null ? "" : `&high=${encodeURIComponent(high)}`;
  return getJson<Pulled>(`/gardens/${garden}/pull?cursor=${cursor}${mark}&limit=${PAGE}`);
}
