/** The outbox as the sync folder uses it: take a batch, settle the answers, park, put back. */
import { inHouse } from "./house";
import type { House, OutRow, SentRow } from "./schema";

const TAKEN = ["applied", "conflict", "duplicate"];
/** How old a backup may be and still be made whole from this phone. */
export const KEEP_SENT_MS = 30 * 24 * 3_600_000;

export interface Result {
  mid?: string | null;
  status: string; // applied, conflict, duplicate, held, rejected or retry
  was?: string | null; // of a duplicate: how it went the first time
  seq?: number;
  code?: string;
  field?: string;
  message?: string;
}

/** The next changes to send, in the order they were made, marked as tried before they leave. */
export async function nextBatch(db: House, garden: string, most: number, sizeOf: (row: OutRow) => number, mostBytes: number, skip: Set<string>) {
  return inHouse(["outbox"], async () => {
    const stuck = new Set((await rowsIn(db, garden, "parked").toArray()).map((row) => row.id));
    const free = (row: OutRow) => !skip.has(row.mid) && !stuck.has(row.id);
    const waiting = rowsIn(db, garden, "new");
    // A filter walks from row to row; where there is nothing to leave out they come all at once.
    const some = stuck.size + skip.size === 0 ? waiting : waiting.filter(free);
    const rows = within(await some.limit(most).toArray(), sizeOf, mostBytes);
    const untried = rows.filter((row) => row.tried === 0);
    await db.outbox.bulkPut(untried.map((row) => ({ ...row, tried: 1 })));
    return rows;
  }, db);
}

/** What the server said about each item, with its new head, in one transaction. Answers the mids to try again later. */
export async function settle(db: House, rows: OutRow[], results: Result[], note: () => Promise<void>): Promise<string[]> {
  const answered = new Map(results.map((result) => [result.mid, result]));
  return inHouse(["outbox", "sent", "meta"], async () => {
    const sent = new Set(rows.map((row) => row.n));
    const around = await db.outbox.where(":id").between(rows[0]!.n, rows.at(-1)!.n, true, true).toArray();
    const here = around.filter((row) => sent.has(row.n));
    const next = here.flatMap((row) => {
      const result = answered.get(row.mid);
      return result ? [after(row, result)] : [];
    });
    await db.outbox.bulkPut(next);
    await db.sent.bulkAdd(next.filter((row) => row.st === "ack").map(logged));
    await note();
    return next.filter((row) => row.st === "new").map((row) => row.mid);
  }, db);
}

export async function park(db: House, row: OutRow, code: string, message: string): Promise<void> {
  await inHouse(["outbox"], () => db.outbox.put({ ...row, tried: 1, st: "parked", code, message }), db);
}

/**
 * Put back in front of the outbox all that was sent, as if nobody had seen it: a restored server may lack any of it.
 * What waits behind it has seen nothing of the new history either: a number of the old one may mean another change there.
 */
export async function requeueSent(db: House, garden: string): Promise<void> {
  const sent = await db.sent.where("garden").equals(garden).sortBy("n");
  await db.outbox.bulkDelete((await rowsIn(db, garden, "ack").primaryKeys()) as number[]);
  await db.outbox.where("garden").equals(garden).modify({ base: 0 });
  const first = (await db.outbox.orderBy(":id").first())?.n ?? 1;
  await db.outbox.bulkPut(sent.map((row, at) => requeued(row, first - sent.length + at)));
  await db.sent.bulkDelete(sent.map((row) => row.n!));
  const photos = await db.blobs.where("[garden+st]").anyOf([[garden, "sent"], [garden, "shown"]]).toArray();
  await db.blobs.bulkPut(photos.map((blob) => ({ ...blob, st: "waiting" as const })));
}

/** The log serves healing only; past thirty days no backup is expected to be older. */
export async function pruneSent(db: House): Promise<void> {
  await db.sent.where("sent_at").below(Date.now() - KEEP_SENT_MS).delete();
}

export async function waitsIn(db: House, garden: string): Promise<number> {
  return rowsIn(db, garden, "new").count();
}

function rowsIn(db: House, garden: string, st: OutRow["st"]) {
  return db.outbox.where("[garden+st]").equals([garden, st]);
}

function within(rows: OutRow[], sizeOf: (row: OutRow) => number, mostBytes: number): OutRow[] {
  let left = mostBytes;
  const end = rows.findIndex((row) => (left -= sizeOf(row)) < 0);
  return end === -1 ? rows : rows.slice(0, Math.max(1, end));
}

function after(row: OutRow, { status, was, seq, code, field, message }: Result): OutRow {
  if (status === "held" || (status === "duplicate" && was === "held")) return { ...row, tried: 1, st: "held" };
  if (TAKEN.includes(status)) return { ...row, tried: 1, st: "ack", ack: seq ?? 0 };
  if (status !== "rejected") return { ...row, tried: 1 }; // retry, or a word this phone does not know
  return { ...row, tried: 1, st: "parked", code: code ?? "rejected", field: field ?? "", message: message ?? "" };
}

function logged(row: OutRow): SentRow {
  const { n: _n, ...rest } = row;
  return { ...rest, sent_at: Date.now() };
}

function requeued(row: SentRow, n: number): OutRow {
  const { sent_at: _at, ...rest } = row;
  return { ...rest, n, st: "new", ack: 0, base: 0, tried: 1 };
}
