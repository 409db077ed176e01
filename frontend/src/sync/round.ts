/** One round with the server: every garden pushes, pulls, and sends its photos and papers. */
import { get } from "svelte/store";
import { sweepGardens } from "../db/blobs";
import { acksLeft, gardensHere, numberOf, progressOf } from "../db/feed";
import { currentHouse, makeRoom, noMorePhotos, stayIn } from "../db/house";
import type { House } from "../db/schema";
import { isClosed, isReadOtherwise, noteClosed, noteReadAs, type Standing, standings } from "../db/rights";
import { pruneSent, waitsIn } from "../db/send";
import { Refused } from "./api";
import { ownGardens } from "./owner";
import { fetchPapers } from "./papers";
import { uploadBytes } from "./photos";
import { isUnknown, mend, pull, reread } from "./pull";
import { push } from "./push";
import { line } from "./status";

let swept: House | null = null;

/** Trouble in one garden lets the others go on; a lost line or sign-in, or another account opened meanwhile, stops the round. */
export async function syncRound(db: House = currentHouse()): Promise<void> {
  line.update((last) => ({ ...last, state: "sending" }));
  const listed = await ownGardens(db);
  const heads = new Map(listed.map((garden) => [garden.id, garden.head]));
  const ended = new Map((await standings(db)).filter(({ state }) => state === "ended").map((one) => [one.id, one]));
  let trouble: unknown = null;
  for (const garden of new Set([...heads.keys(), ...(await gardensHere(db))])) {
    try {
      const end = ended.get(garden);
      await (end ? handIn(db, end) : syncGarden(db, garden, heads.get(garden) ?? null));
    } catch (error) {
      if (!(error instanceof Refused) || stopsAll(error)) throw error;
      if (isShareEnded(error)) {
        if (ended.has(garden)) await noteClosed(db, garden);
        continue; // it ended this very moment: the next round is told how it stands
      }
      // A garden that is not ours any more: what waits for it stays here, and can be saved to a file.
      if (!isUnknown(error) || (await waitsIn(db, garden)) > 0) trouble ??= error;
    }
  }
  await tidy(db);
  if (trouble) throw trouble;
  line.set({ state: "reached", at: new Date().toISOString() });
}

/** What is old enough goes, also when nothing new has come in that would have moved it out. */
async function tidy(db: House): Promise<void> {
  stayIn(db);
  await pruneSent(db);
  if (swept !== db) await sweepGardens(db);
  swept = db;
  if (get(noMorePhotos)) await makeRoom(db); // photos that have arrived left room behind them
  stayIn(db);
}

function stopsAll({ status, code }: Refused): boolean {
  return [0, 401, 429, 503].includes(status) || (status === 403 && !["share_ended", "forbidden"].includes(code));
}

function isShareEnded({ status, code }: Refused): boolean {
  return status === 403 && code === "share_ended";
}

/** After the link's end: what was entered before it is handed in, as long as the server takes it. Nothing is fetched. */
async function handIn(db: House, ended: Standing): Promise<void> {
  if (isClosed(ended)) return;
  await push(db, ended.id);
  await uploadBytes(db, ended.id);
}

async function syncGarden(db: House, garden: string, head: string | null): Promise<void> {
  try {
    await exchange(db, garden, head);
  } catch (error) {
    if (!(await mend(db, garden, error))) throw error;
    await exchange(db, garden, null);
  }
}

async function exchange(db: House, garden: string, head: string | null): Promise<void> {
  const settled = await push(db, garden);
  if (await isReadOtherwise(db, garden)) await reread(db, garden, false);
  await noteReadAs(db, garden);
  if (settled > 0 || (await isBehind(db, garden, head))) await pull(db, garden);
  if ((await uploadBytes(db, garden)) > 0) await pull(db, garden);
  await fetchPapers(db, garden);
}

/** Nothing new when the server's head is the very one this phone has read up to. */
async function isBehind(db: House, garden: string, head: string | null): Promise<boolean> {
  const { cursor, high } = await progressOf(db, garden);
  // The line broke before the pull that lets go of what was acknowledged: until then it would hide the server's own values.
  if ((await acksLeft(db, garden)) > 0) return true;
  if (head === null) return high !== null || (await waitsIn(db, garden)) === 0;
  return head !== high || cursor < numberOf(head);
}
