/** Papers that others added are fetched after a round, so that they can be read, and a lab's form filled, without a signal. */
import { get } from "svelte/store";
import { hashOf } from "../capture/hash";
import { noMorePhotos, stayIn } from "../db/house";
import type { Paper } from "../db/kinds";
import { keepFetched, type PaperSource, papersToFetch } from "../db/papers";
import type { House } from "../db/schema";
import { ask } from "./api";
import { isCostly } from "./enginefiles";

/** Null: not to be had now. */
export const fetchPaper: PaperSource = async (garden, sha256) => {
  try {
    return await (await ask("GET", `/gardens/${garden}/papers/${sha256}`)).arrayBuffer();
  } catch {
    return null;
  }
};

/** One after the other; what does not come is tried again with the next round. Forms come even where each megabyte is paid for. */
export async function fetchPapers(db: House, garden: string): Promise<void> {
  const wanted = (await papersToFetch(db, garden)).filter(({ of }) => of.kind === "lab_profile" || !isCostly());
  for (const paper of wanted) {
    if (get(noMorePhotos)) return;
    await fetchOne(db, garden, paper);
  }
}

async function fetchOne(db: House, garden: string, paper: Paper): Promise<void> {
  const bytes = await fetchPaper(garden, paper.sha256);
  stayIn(db);
  if (bytes && hashOf(bytes) === paper.sha256) await keepFetched(db, garden, paper, bytes);
}
