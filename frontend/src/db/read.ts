/** Reading: lists and single records that follow every save. Each reads only what it shows. */
import { type Readable, writable, type Writable } from "svelte/store";
import { type Folded, fold, foldAll } from "./fold";
import { type Kind, parentOf, type Shown } from "./kinds";
import { live } from "./live";
import { recall, remember } from "./pocket";
import { childKey, type House, kindKey, type OutRow, type ServerRow } from "./schema";

export type { Docs, Kind, Shown } from "./kinds";

/** All records of a kind in a garden that are not deleted, oldest first. */
export function all<K extends Kind>(garden: string, kind: K): Readable<Shown<K>[] | undefined> {
  return live(async (db) => {
    const [servers, patches] = await Promise.all([
      db.records.where("[garden+kind]").equals([garden, kind]).toArray(),
      rowsUnder(db, kindKey(garden, kind)),
    ]);
    return present(foldAll<K>(servers, patches, db.account.username));
  });
}

/** The records of a kind that hang on one parent. Reads these and no others, however many the garden has. */
export function children<K extends Kind>(garden: string, kind: K, parent: string): Readable<Shown<K>[] | undefined> {
  return live(async (db) => {
    const [servers, patches] = await Promise.all([
      db.records.where("[garden+kind+parent]").equals([garden, kind, parent]).toArray(),
      rowsUnder(db, childKey(garden, kind, parent)),
    ]);
    const moved = await movedHere(db, servers, patches);
    const shown = foldAll<K>([...servers, ...moved.servers], moved.patches, db.account.username);
    return present(shown).filter((record) => parentOf(kind, record.doc) === parent);
  });
}

/** Null: there is no such record on this phone, or it is deleted. Undefined also while the garden just fetched is not chosen yet. */
export function one<K extends Kind>(garden: string, kind: K, id: string): Readable<Shown<K> | null | undefined> {
  return live(async (db) => {
    if (garden === "" && (await db.records.where("kind").equals("garden").count()) > 0) return undefined;
    const [server, rows] = await Promise.all([db.records.get(id), db.outbox.where("id").equals(id).sortBy("n")]);
    const shown = fold<K>(server, rows, db.account.username);
    const here = shown && !shown.deleted && shown.kind === kind && shown.garden === garden;
    return here ? shown : null;
  });
}

export const gardens: Readable<Shown<"garden">[] | undefined> = live(async (db) => {
  const [servers, patches] = await Promise.all([
    db.records.where("kind").equals("garden").toArray(),
    rowsUnder(db, "garden"),
  ]);
  return present(foldAll<"garden">(servers, patches, db.account.username));
});

/** The garden the screens are in; remembered over a restart. */
export const currentGarden: Writable<string | null> = writable(recall<string>("garden"));
currentGarden.subscribe((garden) => remember("garden", garden));

function present<K extends Kind>(records: Folded<K>[]): Shown<K>[] {
  return records.filter((record) => !record.deleted);
}

function rowsUnder(db: House, key: string): Promise<OutRow[]> {
  return db.outbox.where("keys").equals(key).sortBy("n");
}

/** A record whose parent was changed here has its other half filed under the old parent: fetch it by id. */
async function movedHere(db: House, servers: ServerRow[], patches: OutRow[]) {
  const known = new Set(servers.map((row) => row.id));
  const created = new Set(patches.filter((row) => row.op === "put").map((row) => row.id));
  const strays = [...new Set(patches.map((row) => row.id))].filter((id) => !known.has(id) && !created.has(id));
  if (strays.length === 0) return { servers: [] as ServerRow[], patches };
  const found = (await db.records.bulkGet(strays)).filter((row) => row !== undefined);
  const theirs = await db.outbox.where("id").anyOf(strays).sortBy("n");
  return { servers: found, patches: [...patches.filter((row) => !strays.includes(row.id)), ...theirs] };
}
