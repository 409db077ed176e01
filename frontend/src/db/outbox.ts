/** What has not left the phone, and what a person can do about it. Nothing here expires. */
import type { Readable } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { inHouse } from "./house";
import { type Kind, SERVER_MADE } from "./kinds";
import { live } from "./live";
import { mayIn, standings } from "./rights";
import type { BlobRow, House, Op, OutRow, ServerRow } from "./schema";
import { storable } from "./text";

export { saveAllToFile } from "./export";

export interface WaitingItem {
  n: number;
  garden: string;
  kind: Kind;
  id: string;
  op: Op;
  at: string;
  set: Record<string, unknown>;
  parked: boolean;
  code?: string;
  field?: string;
  message?: string;
}
export interface WaitingPhoto {
  garden: string;
  sha256: string;
  mime: string;
  n_bytes: number;
  thumb: ArrayBuffer | null;
  added_at: number;
  parked: boolean;
  code?: string;
}

/** Everything that is only on this phone: changes not acknowledged, photos not stored. Undefined until first read. */
export const waiting: Readable<{ items: WaitingItem[]; photos: WaitingPhoto[] } | undefined> = live(async (db) => ({
  items: (await db.outbox.where("st").anyOf("new", "parked").sortBy("n")).map(item),
  photos: (await db.blobs.where("st").anyOf("waiting", "parked").toArray()).map(photo),
}));

/** What the server refused. It waits for a person: edit and send again, or let go. */
export const parked: Readable<{ items: WaitingItem[]; photos: WaitingPhoto[] } | undefined> = live(async (db) => ({
  items: (await db.outbox.where("st").equals("parked").sortBy("n")).map(item),
  photos: (await db.blobs.where("st").equals("parked").toArray()).map(photo),
}));

/** Sent after their garden's link had ended: on the server, for the grower to decide. */
export const withGrower: Readable<WaitingItem[] | undefined> = live(async (db) =>
  (await db.outbox.where("st").equals("held").sortBy("n")).map(item),
);

export interface Counts {
  waiting: number;
  newest: number; // of what waits: one sent and one saved at the same moment leave their number as it was
  parked: number;
  photos: number;
  toSettle: number; // conflicts and late changes that this account may decide
}
export const counts: Readable<Counts | undefined> = live(async (db) => ({
  waiting: await db.outbox.where("st").equals("new").count(),
  newest: (await db.outbox.where("st").equals("new").last())?.n ?? 0,
  parked: (await db.outbox.where("st").equals("parked").count()) + (await db.blobs.where("st").equals("parked").count()),
  photos: await db.blobs.where("st").equals("waiting").count(),
  toSettle: await toSettle(db),
}));

/** Correct a parked item's values and send it again. */
export async function editParked(n: number, set: Record<string, unknown>): Promise<void> {
  await unpark(n, (row) => ({ ...row.set, ...storable(set) }));
}

/** Send a parked item again as it is. */
export async function resendParked(n: number): Promise<void> {
  await unpark(n, (row) => row.set);
}

/** Let a parked item go. The screen asks first: this is the only way a change ever leaves the phone unsent. */
export async function forgetParked(n: number): Promise<void> {
  await inHouse(["outbox"], async (db) => {
    const row = await db.outbox.get(n);
    if (row?.st === "parked") await db.outbox.delete(n);
  });
}

export async function resendPhoto(garden: string, sha256: string): Promise<void> {
  await inHouse(["blobs"], (db) => db.blobs.update([garden, sha256], { st: "waiting", code: undefined }));
}

export async function forgetPhoto(garden: string, sha256: string): Promise<void> {
  await inHouse(["blobs", "bytes"], async (db) => {
    await db.blobs.delete([garden, sha256]);
    await db.bytes.delete([garden, sha256]);
  });
}

async function unpark(n: number, set: (row: OutRow) => Record<string, unknown>): Promise<void> {
  await inHouse(["outbox"], async (db) => {
    const row = await db.outbox.get(n);
    if (row?.st !== "parked") return;
    const { code: _code, field: _field, message: _message, ...kept } = row;
    await db.outbox.put({ ...kept, mid: uuidv7(), st: "new", tried: 0, set: set(row) });
  });
}

async function toSettle(db: House): Promise<number> {
  const [asked, known] = await Promise.all([db.records.where("kind").anyOf(SERVER_MADE).toArray(), standings(db)]);
  const mayHere = (garden: string) => mayIn(known.find(({ id }) => id === garden) ?? null, "").settle;
  const isOpen = ({ deleted, doc }: ServerRow) => !deleted && (doc["state"] === "open" || doc["state"] === "waiting");
  const open = asked.filter((row) => isOpen(row) && mayHere(row.garden));
  const closing = await Promise.all(open.map((row) => db.outbox.where("id").equals(row.id).count()));
  return closing.filter((n) => n === 0).length;
}

function item(row: OutRow): WaitingItem {
  const { n, garden, kind, id, op, at, set, code, field, message } = row;
  return { n: n!, garden, kind, id, op, at, set, parked: row.st === "parked", code, field, message };
}

function photo(row: BlobRow): WaitingPhoto {
  const { garden, sha256, mime, n_bytes, thumb, added_at, code } = row;
  return { garden, sha256, mime, n_bytes, thumb, added_at, parked: row.st === "parked", code };
}
