/** Papers that others added are fetched after a round, so that they can be read, and a lab's form filled, without a signal. */
import { get } from "svelte/store";
import { hashOf } from "../capture/hash";
import { noMorePhotos, stayIn } from "../db/house";
import type { Paper } from "../db/kinds";
import { keepFetched, type PaperSource, papersToFetch } from "../db/papers";
import type { House } from "../db/schema";
import { ask, Refused, whole } from "./api";
import { isCostly } from "./enginefiles";

/** Null: not to be had now. */
export const fetchPaper: PaperSource = async (garden, sha256) => {
  try {
    return await bytesOf(garden, sha256);
  } catch {
    return null;
  }
};

/**
 * One after the other; what does not come is tried again with the next round. Forms come even where each megabyte is paid
 * for. A line that does not answer would let the round wait for each of them.
 */
export async function fetchPapers(db: House, garden: string): Promise<void> {
  const wanted = (await papersToFetch(db, garden)).filter(({ of }) => of.kind === "lab_profile" || !isCostly());
  for (const paper of wanted) {
    if (get(noMorePhotos) || !(await fetchOne(db, garden, paper))) return;
  }
}

/** False when nobody answered. */
async function fetchOne(db: House, garden: string, paper: Paper): Promise<boolean> {
  let bytes: ArrayBuffer | null = null;
  try {
    bytes = await bytesOf(garden, paper.sha256);
  } catch (error) {
    if (error instanceof Refused && error.status === 0) return false;
  }
  stayIn(db);
  if (bytes && hashOf(bytes) === paper.sha256) await keepFetched(db, garden, paper, bytes);
  return true;
}

async function bytesOf(garden: string, sha256: string): Promise<ArrayBuffer> {
  return whole((await ask("GET", `/gardens/${garden}/papers/${sha256}`)).arrayBuffer());
}
