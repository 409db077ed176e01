/** Saving: one transaction that writes one outbox row. Nothing else is touched; the server's copies change only by pull. */
import { uuidv7 } from "uuidv7";
import { NAMERS } from "./blobs";
import { fold } from "./fold";
import { saveInHouse } from "./house";
import { type Docs, type Kind, ownFields, parentOf } from "./kinds";
import { type House, keysOf, type Op, type OutRow, type ServerRow } from "./schema";
import { askToStay } from "./stay";
import { storable } from "./text";

export { SaveFailed } from "./house";

export interface Step {
  op: Op;
  garden: string;
  kind: Kind;
  id: string;
  set: Record<string, unknown>;
}

export function newId(): string {
  return uuidv7();
}

export function now(): string {
  return `${new Date().toISOString().slice(0, 19)}Z`;
}

/** A garden is its own garden: for kind "garden" the id is the garden's id, made here when "" is given. */
export async function create<K extends Kind>(garden: string, kind: K, doc: Partial<Docs[K]>, id?: string): Promise<string> {
  const made = kind === "garden" ? garden || id || newId() : (id ?? newId());
  const home = kind === "garden" ? made : garden;
  const step: Step = { op: "put", garden: home, kind, id: made, set: { ...doc } };
  if (made === id || made === garden) await save([step]);
  else await addNew(step);
  if (kind === "gall_rating") askToStay();
  return made;
}

/** Nothing to change is nothing to save. */
export async function change<K extends Kind>(garden: string, kind: K, id: string, set: Partial<Docs[K]>): Promise<void> {
  if (Object.keys(set).length === 0) return;
  await save([{ op: "patch", garden, kind, id, set: { ...set } }]);
}

export async function remove(garden: string, kind: Kind, id: string): Promise<void> {
  await save([{ op: "delete", garden, kind, id, set: {} }]);
}

/** Undo of remove: an unsent delete is taken back; one that may have left is answered with the whole record again. */
export async function restore<K extends Kind>(garden: string, kind: K, id: string): Promise<void> {
  await saveInHouse(["records", "outbox", "sent", "blobs"], async (db) => {
    const rows = await db.outbox.where("id").equals(id).sortBy("n");
    const last = rows.at(-1);
    if (last?.op === "delete" && last.st === "new" && last.tried === 0) {
      await db.outbox.delete(last.n!);
      return;
    }
    const was = last?.was ?? (await db.sent.where("id").equals(id).sortBy("n")).findLast((row) => row.was)?.was;
    if (was) await writeStep(db, { op: "put", garden, kind, id, set: was });
    if (was && NAMERS.includes(kind)) await sendBytesAfterAll(db, garden, was["sha256"]);
  });
}

async function sendBytesAfterAll(db: House, garden: string, sha256: unknown): Promise<void> {
  const aside = db.blobs.where("[garden+st]").equals([garden, "aside"]);
  await aside.filter((blob) => blob.sha256 === sha256).modify({ st: "waiting" });
}

/** Close a conflict; `taken` writes the other value into the record in the same transaction. */
export async function closeConflict(garden: string, conflictId: string, state: "kept" | "taken"): Promise<void> {
  await saveInHouse(["records", "outbox"], async (db) => {
    const row = await db.records.get(conflictId);
    if (!row) return;
    const doc = row.doc as unknown as Docs["conflict"];
    // One of a history the server lost: it is closed here, where alone it is known.
    if (row.seq === 0) await db.records.put({ ...row, doc: { ...row.doc, state } });
    else await writeStep(db, { op: "patch", garden, kind: "conflict", id: conflictId, set: { state } });
    if (state === "taken") await writeStep(db, taking(garden, doc));
  });
}

/**
 * Decide on a change that came after its author's link had ended. The server puts an accepted one into its place itself,
 * under its author's name; one of a history the server lost is put there by this phone.
 */
export async function settleHeld(garden: string, heldId: string, state: "accepted" | "declined"): Promise<void> {
  await saveInHouse(["records", "outbox"], async (db) => {
    const row = await db.records.get(heldId);
    if (!row) return;
    if (row.seq > 0) return writeStep(db, { op: "patch", garden, kind: "held", id: heldId, set: { state } });
    const { op, of, set } = row.doc as unknown as Docs["held"];
    await db.records.put({ ...row, doc: { ...row.doc, state } });
    if (state === "accepted") await writeStep(db, { op, garden, ...of, set: set ?? {} });
  });
}

function taking(garden: string, doc: Docs["conflict"]): Step {
  const gone = doc.field === "deleted" && doc.other === true;
  const target = { garden, kind: doc.of.kind, id: doc.of.id };
  return gone ? { op: "delete", ...target, set: {} } : { op: "patch", ...target, set: { [doc.field]: doc.other } };
}

/** Under an id made a moment ago there is nothing to look up: no read stands between the tap and the save. */
async function addNew(step: Step): Promise<void> {
  await saveInHouse(["outbox"], (db) => db.outbox.add(outboxRow(db, step, undefined, [])));
}

/** Several changes that belong together, in one transaction. */
export async function save(steps: Step[]): Promise<void> {
  await saveInHouse(["records", "outbox"], async (db) => {
    for (const step of steps) await writeStep(db, step);
  });
}

/** Must run inside a transaction over records and outbox. */
export async function writeStep(db: House, step: Step): Promise<void> {
  const server = await db.records.get(step.id);
  const rows = await db.outbox.where("id").equals(step.id).sortBy("n");
  const row = outboxRow(db, step, server, rows);
  const last = rows.at(-1);
  if (last && mayJoin(last, row)) await db.outbox.put(joined(last, row));
  else await db.outbox.add(row);
}

function outboxRow(db: House, step: Step, server: ServerRow | undefined, rows: OutRow[]): OutRow {
  const before = fold(server, rows, db.account.username);
  const set = storable(step.set);
  const parents = [parentOf(step.kind, { ...before?.doc, ...set })];
  if (before) parents.push(parentOf(step.kind, before.doc));
  return {
    mid: uuidv7(),
    account: db.account.id,
    garden: step.garden,
    kind: step.kind,
    id: step.id,
    keys: keysOf(step.garden, step.kind, parents),
    op: step.op,
    base: server?.seq ?? 0,
    at: now(),
    set,
    st: "new",
    ack: 0,
    tried: 0,
    ...(step.op === "delete" && before ? { was: ownFields(step.kind, before.doc) } : {}),
  };
}

/** Never a row that may have reached the server, and never across two states of the server's copy. */
function mayJoin(last: OutRow, next: OutRow): boolean {
  const untouched = last.st === "new" && last.tried === 0 && last.base === next.base;
  return untouched && last.op !== "delete" && next.op === "patch";
}

function joined(last: OutRow, next: OutRow): OutRow {
  return {
    ...last,
    mid: next.mid,
    at: next.at,
    set: { ...last.set, ...next.set },
    keys: [...new Set([...last.keys, ...next.keys])],
  };
}
