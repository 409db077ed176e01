/** When the server lost history: the garden is read anew, and what this phone had sent goes back in front of the outbox. */
import { uuidv7 } from "uuidv7";
import { type FeedRecord, notePhotos, type Progress, progressKey, serverRow, settleAcks } from "./feed";
import { inHouse } from "./house";
import { ownFields } from "./kinds";
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

/** The new copy in the place of the old. `historyLost`: what was sent goes back in front of the outbox in the same step. */
export async function swapIn(db: House, garden: string, at: Progress, historyLost: boolean): Promise<void> {
  await inHouse(["records", "shadow", "outbox", "sent", "meta", "blobs"], async () => {
    if (historyLost) await requeueSent(db, garden);
    const rows = await db.shadow.where("garden").equals(garden).toArray();
    await db.records.where("garden").equals(garden).delete();
    await db.records.bulkPut(rows);
    await db.shadow.where("garden").equals(garden).delete();
    await db.meta.put({ k: progressKey(garden), v: at });
    await notePhotos(db, garden, rows);
    await settleAcks(db, garden, at.cursor, at.cursor);
  }, db);
}

/**
 * The server does not know the garden any more. All that was ever sent is queued again, and what is older than the log is
 * put anew from this phone's copy: a server that lost everything is rebuilt from any phone.
 */
export async function startAfresh(db: House, garden: string): Promise<void> {
  await inHouse(["records", "outbox", "sent", "meta", "blobs"], async () => {
    await requeueSent(db, garden);
    const put = new Set((await db.outbox.where("garden").equals(garden).toArray()).filter(isPut).map((row) => row.id));
    const known = (await db.records.where("garden").equals(garden).toArray()).filter(isOurs);
    const missing = known.filter((row) => !put.has(row.id));
    const first = (await db.outbox.orderBy(":id").first())?.n ?? 1;
    await db.outbox.bulkPut(missing.map((row, at) => putAgain(db, row, first - missing.length + at)));
    await gardenFirst(db, garden);
    await db.records.where("garden").equals(garden).modify({ seq: 0 }); // the numbers of a history that is gone
    await db.meta.put({ k: progressKey(garden), v: { cursor: 0, high: null } });
  }, db);
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
  return !row.deleted && row.kind !== "conflict";
}

function putAgain(db: House, row: ServerRow, n: number): OutRow {
  const { garden, kind, id, parent } = row;
  const set = ownFields(kind, row.doc);
  const keys = keysOf(garden, kind, [parent]);
  return { n, mid: uuidv7(), account: db.account.id, garden, kind, id, keys, op: "put", base: 0, at: now(), set, st: "new", ack: 0, tried: 1 };
}
