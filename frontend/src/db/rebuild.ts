/** When the server lost history: the garden is read anew, and what this phone had sent goes back in front of the outbox. */
import { uuidv7 } from "uuidv7";
import { type FeedRecord, notePhotos, type Progress, progressKey, serverRow, settleAcks } from "./feed";
import { inHouse } from "./house";
import { ownFields } from "./kinds";
import { now } from "./save";
import { type House, keysOf, type OutRow, type ServerRow } from "./schema";
import { requeueSent } from "./send";

/** Begin reading the garden anew beside the old copy, which stays on the screens until the new one is complete. */
export async function beginReread(garden: string): Promise<void> {
  await inHouse(["shadow"], (db) => db.shadow.where("garden").equals(garden).delete());
}

export async function storeShadow(garden: string, records: FeedRecord[]): Promise<void> {
  await inHouse(["shadow"], (db) => db.shadow.bulkPut(records.map((record) => serverRow(garden, record))));
}

/** The new copy in the place of the old. `historyLost`: what was sent goes back in front of the outbox in the same step. */
export async function swapIn(garden: string, at: Progress, historyLost: boolean): Promise<void> {
  await inHouse(["records", "shadow", "outbox", "sent", "meta", "blobs", "bytes"], async (db) => {
    if (historyLost) await requeueSent(db, garden);
    const rows = await db.shadow.where("garden").equals(garden).toArray();
    await db.records.where("garden").equals(garden).delete();
    await db.records.bulkPut(rows);
    await db.shadow.where("garden").equals(garden).delete();
    await db.meta.put({ k: progressKey(garden), v: at });
    await notePhotos(db, garden, rows);
    await settleAcks(db, garden, at.cursor, at.cursor);
  });
}

/**
 * The server does not know the garden any more. All that was ever sent is queued again, and what is older than the log is
 * put anew from this phone's copy: a server that lost everything is rebuilt from any phone.
 */
export async function startAfresh(garden: string): Promise<void> {
  await inHouse(["records", "outbox", "sent", "meta", "blobs"], async (db) => {
    await requeueSent(db, garden);
    const put = new Set((await db.outbox.where("garden").equals(garden).toArray()).filter(isPut).map((row) => row.id));
    const known = (await db.records.where("garden").equals(garden).toArray()).filter(isOurs);
    const gardenFirst = known.filter((row) => !put.has(row.id)).sort((a, b) => Number(b.kind === "garden") - Number(a.kind === "garden"));
    const first = (await db.outbox.orderBy(":id").first())?.n ?? 1;
    await db.outbox.bulkPut(gardenFirst.map((row, at) => putAgain(db, row, first - gardenFirst.length + at)));
    await db.meta.put({ k: progressKey(garden), v: { cursor: 0, high: null } });
  });
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
  return { n, mid: uuidv7(), account: db.account.id, garden, kind, id, keys, op: "put", base: 0, at: now(), set, st: "new", ack: 0, tried: 1, healed: 1 };
}
