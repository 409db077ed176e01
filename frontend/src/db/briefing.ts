/** The last briefing of each garden, kept so that it is there at once, and what it does not include yet. */
import type { Readable } from "svelte/store";
import { type FeedRecord, numberOf, type Progress, progressKey } from "./feed";
import { currentHouse } from "./house";
import type { Kind } from "./kinds";
import { live } from "./live";
import { now } from "./save";
import type { House, OutRow } from "./schema";
import type { Briefing, Missing } from "./told";

/** `head`: the mark of the history it was made from. `own`: what of this phone's own changes was in it beyond that. */
export interface Kept {
  made_at: string;
  head: string | null;
  own: string[];
  here: boolean; // worked out on this phone
  briefing: Briefing;
}
export interface Last extends Kept {
  /** Entries on this phone that it does not include yet, and of which kinds. */
  missing: number;
  kinds: Missing[];
}

const UNTOLD: Kind[] = ["photo", "paper", "conflict", "held"]; // nothing is worked out from them

/** Null: there is none yet. */
export function lastBriefing(garden: string): Readable<Last | null | undefined> {
  return live(async (db) => {
    const kept = await keptIn(db, garden);
    if (!kept) return null;
    const kinds = byKind([...(await unsaid(db, garden, kept)), ...(await newer(db, garden, kept))]);
    return { ...kept, missing: kinds.reduce((sum, { n }) => sum + n, 0), kinds };
  });
}

export async function keptBriefing(garden: string): Promise<Kept | undefined> {
  return keptIn(currentHouse(), garden);
}

/** Not through `inHouse`: for want of room the reserve is not touched and nobody is told "not saved"; the old one stays. */
export async function keepBriefing(garden: string, made: Omit<Kept, "made_at">): Promise<void> {
  await currentHouse().meta.put({ k: briefingKey(garden), v: { made_at: now(), ...made } });
}

/** What a briefing worked out here now would include: the history read so far, and the changes laid on top of it. */
export async function standing(garden: string): Promise<Pick<Kept, "head" | "own">> {
  const db = currentHouse();
  const rows = await db.outbox.where("garden").equals(garden).toArray();
  return { head: (await progressIn(db, garden))?.high ?? null, own: rows.map((row) => row.mid) };
}

function briefingKey(garden: string): string {
  return `briefing:${garden}`;
}

async function keptIn(db: House, garden: string): Promise<Kept | undefined> {
  return (await db.meta.get(briefingKey(garden)))?.v as Kept | undefined;
}

async function progressIn(db: House, garden: string): Promise<Progress | undefined> {
  return (await db.meta.get(progressKey(garden)))?.v as Progress | undefined;
}

/** Changes made here that it was made without; one that the server took before it answered is in it. */
async function unsaid(db: House, garden: string, { head, own }: Kept): Promise<OutRow[]> {
  const rows = await db.outbox.where("garden").equals(garden).toArray();
  const known = new Set(own);
  return rows.filter((row) => !known.has(row.mid) && !(row.st === "ack" && row.ack <= numberOf(head)));
}

/** What the server sent since. Read only when it did send something: a garden may hold thousands of ratings. */
async function newer(db: House, garden: string, { head, own }: Kept): Promise<Pick<FeedRecord, "id" | "kind">[]> {
  const read = (await progressIn(db, garden))?.cursor ?? 0;
  if (read <= numberOf(head)) return [];
  const rows = (await db.records.where("garden").equals(garden).toArray()).filter((row) => row.seq > numberOf(head));
  const known = new Set(own);
  const sent = own.length > 0 ? await db.sent.where("id").anyOf(rows.map(({ id }) => id)).toArray() : [];
  const ours = new Set(sent.filter((row) => known.has(row.mid)).map((row) => row.ack));
  return rows.filter((row) => !ours.has(row.seq));
}

/** A record changed three times is one entry. */
function byKind(rows: { id: string; kind: string }[]): Missing[] {
  const kinds = new Map(rows.map(({ id, kind }) => [id, kind as Kind]));
  const counts = new Map<Kind, number>();
  for (const kind of kinds.values()) if (!UNTOLD.includes(kind)) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return [...counts].map(([kind, n]) => ({ kind, n })).sort((a, b) => a.kind.localeCompare(b.kind));
}
