/** Storing what the server sends. Records, cursor and history mark always move in one transaction. */
import { NAMERS, sweepBytes } from "./blobs";
import { inHouse } from "./house";
import { type Kind, parentOf, type Paper, type Photo } from "./kinds";
import type { BlobRow, House, ServerRow } from "./schema";

export interface Feed {
  cursor: number;
  head: string;
  more: boolean;
  records: FeedRecord[];
}
export interface FeedRecord {
  id: string;
  kind: string;
  seq: number;
  deleted: boolean;
  by: string;
  device: string | null;
  rev: Record<string, number>;
  doc: Record<string, unknown>;
}
/** `cursor`: what this phone has read. `high`: the greatest "number.tag" the server ever told it. */
export interface Progress {
  cursor: number;
  high: string | null;
}

export async function progressOf(db: House, garden: string): Promise<Progress> {
  return ((await db.meta.get(progressKey(garden)))?.v as Progress | undefined) ?? { cursor: 0, high: null };
}

/** Gardens this phone has anything of, sent or not. */
export async function gardensHere(db: House): Promise<string[]> {
  const [known, made] = await Promise.all([
    db.records.where("kind").equals("garden").toArray(),
    db.outbox.where("st").anyOf("new", "ack", "held").toArray(),
  ]);
  return [...new Set([...known.filter((row) => !row.deleted), ...made].map((row) => row.garden))];
}

/** `from`: the cursor at the start of this round of pages; see settleAcks. */
export async function storePage(db: House, garden: string, feed: Feed, from: number): Promise<void> {
  await inHouse(["records", "outbox", "sent", "meta", "blobs", "bytes"], async () => {
    await db.records.bulkPut(feed.records.map((record) => serverRow(garden, record)));
    await letGoOfOwn(db, garden, feed.records);
    await moveOn(db, garden, feed);
    await noteBytes(db, garden, feed.records);
    if (!feed.more) await settleAcks(db, garden, feed.cursor, from);
    if (!feed.more) await sweepBytes(db, garden);
    // The garden is open to this phone again: what was accepted of its late changes is in what was just read.
    if (!feed.more) await db.outbox.where("[garden+st]").equals([garden, "held"]).delete();
  }, db);
}

/** A conflict kept from a lost history gives way to the one the new history makes about the same field. */
async function letGoOfOwn(db: House, garden: string, records: FeedRecord[]): Promise<void> {
  const made = records.filter(({ kind }) => kind === "conflict").map(({ doc }) => `${parentOf("conflict", doc)} ${doc["field"]}`);
  const own = db.records.where("[garden+kind]").equals([garden, "conflict"]).filter((row) => row.seq === 0);
  await own.filter(({ parent, doc }) => made.includes(`${parent} ${doc["field"]}`)).delete();
}

/** How many acknowledged rows still wait for the pull that shows them. */
export async function acksLeft(db: House, garden: string): Promise<number> {
  return db.outbox.where("[garden+st]").equals([garden, "ack"]).count();
}

export async function raiseHigh(db: House, garden: string, head: string): Promise<void> {
  const known = await progressOf(db, garden);
  await db.meta.put({ k: progressKey(garden), v: { ...known, high: higher(known.high, head) } });
}

export function numberOf(head: string | null): number {
  return head === null ? 0 : Number(head.split(".")[0]);
}

function higher(known: string | null, head: string): string {
  return known !== null && numberOf(known) > numberOf(head) ? known : head;
}

export function progressKey(garden: string): string {
  return `progress:${garden}`;
}

async function moveOn(db: House, garden: string, { cursor, head }: Feed): Promise<void> {
  const known = await progressOf(db, garden);
  await db.meta.put({ k: progressKey(garden), v: { cursor, high: higher(known.high, head) } });
}

export function serverRow(garden: string, record: FeedRecord): ServerRow {
  const kind = record.kind as Kind;
  return { ...record, kind, garden, parent: parentOf(kind, record.doc) };
}

/**
 * An acknowledged change leaves the outbox when the server's copy holds it. A record edited again while the pages were
 * read arrives one round later; so a row goes when its record has reached its number, or when a whole round began past it.
 */
export async function settleAcks(db: House, garden: string, cursor: number, from: number): Promise<void> {
  const acked = await db.outbox.where("[garden+st]").equals([garden, "ack"]).toArray();
  const due = acked.filter((row) => row.ack <= cursor);
  const servers = await db.records.bulkGet(due.map((row) => row.id));
  const done = due.filter((row, at) => row.ack <= from || (servers[at]?.seq ?? -1) >= row.ack);
  await db.outbox.bulkDelete(done.map((row) => row.n!));
}

/** What the server says of the bytes that photos and papers name. */
export async function noteBytes(db: House, garden: string, records: { kind: string; deleted: boolean; doc: object }[]): Promise<void> {
  const named = records.filter((record) => NAMERS.includes(record.kind) && !record.deleted).map((record) => record.doc as Photo | Paper);
  const blobs = await db.blobs.bulkGet(named.map(({ sha256 }) => [garden, sha256]));
  await db.blobs.bulkPut(named.flatMap((one, at) => noted(blobs[at], one.blob)));
}

function noted(blob: BlobRow | undefined, server: Photo["blob"]): BlobRow[] {
  if (!blob) return [];
  if (server === "stored" && blob.st !== "stored") return [{ ...blob, st: "shown" }];
  if (server === "refused") return [{ ...blob, st: "parked", code: "refused" }];
  // The server has no bytes although it took them once: it was restored from an older copy. Or a removed photo is back.
  return server === "pending" && ["sent", "shown", "aside"].includes(blob.st) ? [{ ...blob, st: "waiting" }] : [];
}
