/** When the server lost history: the garden is read anew, and what this phone had sent goes back in front of the outbox. */
import { uuidv7 } from "uuidv7";
import { type FeedRecord, noteBytes, type Progress, progressKey, serverRow, settleAcks } from "./feed";
import { inHouse } from "./house";
import { type Kind, ownFields, SERVER_MADE } from "./kinds";
import { mayPutBack, standingOf } from "./rights";
import { now } from "./save";
import { type House, keysOf, type OutRow, type ServerRow } from "./schema";
import { requeueSent } from "./send";

/** Begin reading the garden anew beside the old copy, which stays on the screens until the new one is complete. */
export async function beginReread(db: House, garden: string): Promise<void> {
  await inHouse(["shadow"], () => db.shadow.where("garden").equals(garden).delete(), db);
}

export async function storeShadow(db: House, garden: string, records: FeedRecord[]): Promise<void> {
  await inHouse(["shadow"], () => db.shadow.bulkPut(records.map((record) => serverRow(garden, record))), db);
}

/**
 * The new copy in the place of the old. `historyLost`: in the same step what was sent goes back in front of the outbox, and
 * in front of that what the new history lacks and the log no longer holds, put anew from the old copy.
 */
export async function swapIn(db: House, garden: string, at: Progress, historyLost: boolean): Promise<void> {
  await inHouse(["records", "shadow", "outbox", "sent", "meta", "blobs"], async () => {
    const rows = await db.shadow.where("garden").equals(garden).toArray();
    const has = new Set(rows.map(({ id }) => id));
    if (historyLost) {
      // One after the other: in functions within functions Dexie loses its transaction.
      await requeueSent(db, garden);
      await partFromServerMade(db, garden, has);
      await putMissing(db, garden, has);
      await gardenFirst(db, garden);
    }
    await db.records.where("garden").equals(garden).filter((row) => !isOwn(row)).delete();
    await db.records.bulkPut(rows);
    await db.shadow.where("garden").equals(garden).delete();
    await db.meta.put({ k: progressKey(garden), v: at });
    await noteBytes(db, garden, rows);
    await settleAcks(db, garden, at.cursor, at.cursor);
  }, db);
}

/** The server does not know the garden any more: its new history is empty, and it is rebuilt from any phone. */
export async function startAfresh(db: House, garden: string): Promise<void> {
  await beginReread(db, garden);
  await swapIn(db, garden, { cursor: 0, high: null }, true);
}

/**
 * Only the server makes conflicts and held changes: of one it does not know, nothing can be told to it. Open ones stay with
 * this phone, under number 0, until the new history makes them again; a closing that was on its way is done here.
 */
async function partFromServerMade(db: House, garden: string, has: Set<string>): Promise<void> {
  const unknown = (row: { kind: Kind; id: string }) => SERVER_MADE.includes(row.kind) && !has.has(row.id);
  const closings = await db.outbox.where("garden").equals(garden).filter(unknown).toArray();
  const closed = new Set(closings.map(({ id }) => id));
  await db.outbox.bulkDelete(closings.map((row) => row.n!));
  const isOpen = ({ doc }: ServerRow) => doc["state"] === "open" || doc["state"] === "waiting";
  const open = await db.records.where("garden").equals(garden).filter((row) => unknown(row) && isOpen(row)).toArray();
  await db.records.bulkPut(open.filter(({ id }) => !closed.has(id)).map((row) => ({ ...row, seq: 0 })));
}

/** A conflict or held change that only this phone knows. */
function isOwn(row: ServerRow): boolean {
  return SERVER_MADE.includes(row.kind) && row.seq === 0;
}

async function putMissing(db: House, garden: string, has: Set<string>): Promise<void> {
  const queued = await db.outbox.where("garden").equals(garden).sortBy("n");
  const held = new Set([...has, ...queued.filter(isPut).map(({ id }) => id)]);
  const standing = await standingOf(db, garden);
  const ours = (row: ServerRow) => isOurs(row) && mayPutBack(standing, row);
  const copies = await db.records.where("garden").equals(garden).filter((row) => ours(row) && !held.has(row.id)).toArray();
  for (const { id } of copies) held.add(id);
  const missing = [...copies.map(fromCopy), ...removedOf(queued, held)];
  const first = (await db.outbox.orderBy(":id").first())?.n ?? 1;
  await db.outbox.bulkPut(missing.map((what, at) => putAgain(db, garden, what, first - missing.length + at)));
}

type Missing = Pick<OutRow, "kind" | "id" | "keys" | "set">;

function fromCopy({ garden, kind, id, parent, doc }: ServerRow): Missing {
  return { kind, id, keys: keysOf(garden, kind, [parent]), set: ownFields(kind, doc) };
}

/** What was removed here and is not even known there: its removal, and what came before, would be refused without it. */
function removedOf(queued: OutRow[], held: Set<string>): Missing[] {
  const removals = queued.filter(({ id, was }) => was && !held.has(id));
  const first = new Map([...removals].reverse().map((row) => [row.id, row]));
  return [...first.values()].map(({ kind, id, keys, was }) => ({ kind, id, keys, set: was! }));
}

/** Only the garden's own record opens a garden, wherever it came from: the sent log, the copy, or still waiting. */
async function gardenFirst(db: House, garden: string): Promise<void> {
  const rows = await db.outbox.where("garden").equals(garden).sortBy("n");
  const opening = rows.find((row) => isPut(row) && row.id === garden);
  if (!opening || opening === rows[0]) return;
  await db.outbox.delete(opening.n!);
  await db.outbox.add({ ...opening, n: rows[0]!.n! - 1 });
}

function isPut(row: OutRow): boolean {
  return row.op === "put";
}

function isOurs(row: ServerRow): boolean {
  return !row.deleted && !SERVER_MADE.includes(row.kind);
}

function putAgain(db: House, garden: string, what: Missing, n: number): OutRow {
  return { n, mid: uuidv7(), account: db.account.id, garden, ...what, op: "put", base: 0, at: now(), st: "new", ack: 0, tried: 1 };
}
