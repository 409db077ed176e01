/** Bytes of photos and papers as the sync folder uses them: what waits, what became of it, and when the bytes may go. */
import { get } from "svelte/store";
import { inHouse, noMorePhotos } from "./house";
import type { Kind } from "./kinds";
import { type BlobRow, type House, kindKey, type OutRow, type ServerRow } from "./schema";
import { KEEP_SENT_MS } from "./send";

/** The kinds that name bytes. */
export const NAMERS: string[] = ["photo", "paper"] satisfies Kind[];

/**
 * What is only here and can go, oldest first. Without its record the server takes none: one saved just now waits for the
 * next push, unless the server already has another record of the same bytes.
 */
export async function waitingBlobs(db: House, garden: string): Promise<BlobRow[]> {
  const [waiting, namers] = await Promise.all([
    db.blobs.where("[garden+st]").equals([garden, "waiting"]).sortBy("added_at"),
    namersIn(db, garden),
  ]);
  const unsent = hashesOf(namers.filter(isUnsent));
  if (!waiting.some(({ sha256 }) => unsent.has(sha256))) return waiting;
  const taken = hashesOf(namers.filter((row) => !isUnsent(row)));
  for (const row of await storedIn(db, garden)) taken.add(row.doc["sha256"]);
  return waiting.filter(({ sha256 }) => !unsent.has(sha256) || taken.has(sha256));
}

export async function bytesOf(db: House, { garden, sha256 }: BlobRow): Promise<ArrayBuffer | null> {
  return (await db.bytes.get([garden, sha256]))?.bytes ?? null;
}

export async function markBlob(db: House, { garden, sha256 }: BlobRow, st: BlobRow["st"], code?: string): Promise<void> {
  await inHouse(["blobs"], () => db.blobs.update([garden, sha256], { st, code }), db);
}

/** The server knows no photo and no paper of these bytes. It is still on its way, or was removed: then they are kept for the undo. */
export async function withoutRecord(db: House, blob: BlobRow): Promise<void> {
  await inHouse(["records", "outbox", "sent", "blobs", "bytes"], async () => {
    if (await isWanted(db, blob)) return;
    if ((await removed(db, blob.garden)).has(blob.sha256)) await db.blobs.put({ ...blob, st: "aside" });
    else await forget(db, blob);
  }, db);
}

/**
 * Bytes go only when the server has shown the photo stored and nothing about it waits here; and not before the day when no
 * older backup is expected to come back without them, unless this phone has no room left. The thumb stays. Those of a
 * removed photo go when its removal can no longer be undone. A paper is there to be read without a signal and stays while
 * there is room. Must run inside a transaction over records, outbox, sent, blobs and bytes.
 */
export async function sweepBytes(db: House, garden: string): Promise<void> {
  const full = get(noMorePhotos);
  const old = full ? Infinity : Date.now() - KEEP_SENT_MS;
  const shown = (await blobsIn(db, garden, "shown")).filter((blob) => blob.added_at < old);
  const queued = shown.length > 0 ? await namedInOutbox(db, garden) : new Set();
  for (const blob of shown.filter(({ sha256 }) => !queued.has(sha256))) {
    if (!full && isPaper(blob) && (await isWanted(db, blob))) continue;
    await db.bytes.delete([garden, blob.sha256]);
    await db.blobs.put({ ...blob, st: "stored" });
  }
  const aside = await blobsIn(db, garden, "aside");
  const undoable = aside.length > 0 ? await removed(db, garden) : new Set();
  for (const blob of aside.filter(({ sha256 }) => !undoable.has(sha256))) await forget(db, blob);
}

/** Also in a garden from which nothing new comes. */
export async function sweepGardens(db: House): Promise<void> {
  const gardens = new Set((await db.blobs.where("st").anyOf("shown", "aside").toArray()).map((blob) => blob.garden));
  for (const garden of gardens) await inHouse(["records", "outbox", "sent", "blobs", "bytes"], () => sweepBytes(db, garden), db);
}

function blobsIn(db: House, garden: string, st: BlobRow["st"]): Promise<BlobRow[]> {
  return db.blobs.where("[garden+st]").equals([garden, st]).toArray();
}

async function forget(db: House, { garden, sha256 }: BlobRow): Promise<void> {
  await db.blobs.delete([garden, sha256]);
  await db.bytes.delete([garden, sha256]);
}

export function isPaper({ mime }: Pick<BlobRow, "mime">): boolean {
  return mime === "application/pdf";
}

/** Is there a record, here or on the server, that names these bytes? */
async function isWanted(db: House, { garden, sha256 }: BlobRow): Promise<boolean> {
  if ((await namedInOutbox(db, garden)).has(sha256)) return true;
  return (await storedIn(db, garden)).some((row) => row.doc["sha256"] === sha256);
}

function storedIn(db: House, garden: string): Promise<ServerRow[]> {
  const named = db.records.where("[garden+kind]").anyOf(NAMERS.map((kind) => [garden, kind]));
  return named.filter((row) => !row.deleted).toArray();
}

async function namedInOutbox(db: House, garden: string): Promise<Set<unknown>> {
  return hashesOf(await namersIn(db, garden));
}

function hashesOf(rows: OutRow[]): Set<unknown> {
  return new Set(rows.map((row) => row.set["sha256"]));
}

function isUnsent({ st }: OutRow): boolean {
  return st === "new" || st === "parked";
}

function namersIn(db: House, garden: string): Promise<OutRow[]> {
  return db.outbox.where("keys").anyOf(NAMERS.map((kind) => kindKey(garden, kind as Kind))).toArray();
}

/** Hashes of photos and papers whose removal can still be undone. */
async function removed(db: House, garden: string): Promise<Set<unknown>> {
  const [waiting, sent] = await Promise.all([
    namersIn(db, garden),
    db.sent.where("garden").equals(garden).filter((row) => NAMERS.includes(row.kind)).toArray(),
  ]);
  return new Set([...waiting, ...sent].flatMap((row) => (row.was ? [row.was["sha256"]] : [])));
}
