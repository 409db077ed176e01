/** One round with the server: every garden pushes, pulls, and sends its photos. */
import { get } from "svelte/store";
import { thisDevice } from "../db/device";
import { gardensHere, numberOf, progressOf } from "../db/feed";
import { currentHouse, makeRoom, noMorePhotos } from "../db/house";
import { pruneSent, waitsIn } from "../db/send";
import { me, Refused } from "./api";
import { uploadPhotos } from "./photos";
import { mend, pull } from "./pull";
import { push } from "./push";
import { line } from "./status";

/** Trouble in one garden lets the others go on; a lost line or sign-in stops the round. */
export async function syncRound(): Promise<void> {
  line.update((last) => ({ ...last, state: "sending" }));
  const listed = await ownGardens();
  const heads = new Map(listed.map((garden) => [garden.id, garden.head]));
  let trouble: unknown = null;
  for (const garden of new Set([...heads.keys(), ...(await gardensHere())])) {
    try {
      await syncGarden(garden, heads.get(garden) ?? null);
    } catch (error) {
      if (!(error instanceof Refused) || [0, 401, 403, 429, 503].includes(error.status)) throw error;
      // A garden that is not ours any more: what waits for it stays here, and can be saved to a file.
      if (error.status !== 404 || (await waitsIn(garden)) > 0) trouble ??= error;
    }
  }
  await pruneSent();
  if (get(noMorePhotos)) await makeRoom(); // photos that have arrived left room behind them
  if (trouble) throw trouble;
  line.set({ state: "reached", at: new Date().toISOString() });
}

export async function syncGarden(garden: string, head: string | null): Promise<void> {
  try {
    await exchange(garden, head);
  } catch (error) {
    if (!(await mend(garden, error))) throw error;
    await exchange(garden, null);
  }
}

async function exchange(garden: string, head: string | null): Promise<void> {
  const settled = await push(garden);
  if (settled > 0 || (await isBehind(garden, head))) await pull(garden);
  if ((await uploadPhotos(garden)) > 0) await pull(garden);
}

/** Nothing new when the server's head is the very one this phone has read up to. */
async function isBehind(garden: string, head: string | null): Promise<boolean> {
  const { cursor, high } = await progressOf(garden);
  if (head === null) return high !== null || (await waitsIn(garden)) === 0;
  return head !== high || cursor < numberOf(head);
}

/** The outbox of one account must never leave under another's sign-in, nor another's gardens come in here. */
async function ownGardens(): Promise<{ id: string; head: string | null }[]> {
  const answer = await me();
  const mine = answer.account.id === currentHouse().account.id && answer.device === (await thisDevice());
  if (!mine) throw new Refused(401, "other_account");
  return answer.gardens;
}
