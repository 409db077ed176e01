/** Finds the records that a list of others hangs on, so that a screen can name them: a rating by its plant, check and bed. */
import type { Readable } from "svelte/store";
import { fold } from "./fold";
import type { Kind } from "./kinds";
import { live } from "./live";
import type { House, OutRow } from "./schema";

export interface Named {
  kind: Kind;
  doc: Record<string, unknown>;
}

const REFERENCES = ["bed", "planting", "root_check", "lab_profile", "soil_sample"];

/** The given records and all they refer to, by id; deleted ones too, for they still have a name. */
export function named(ids: string[]): Readable<Map<string, Named> | undefined> {
  return live(async (db) => {
    const found = new Map<string, Named>();
    let next = [...new Set(ids)];
    const asked = new Set(next);
    while (next.length > 0) {
      const step = await records(db, next);
      for (const [id, record] of step) found.set(id, record);
      next = [...step.values()].flatMap(({ doc }) => referred(doc)).filter((id) => !asked.has(id));
      next = [...new Set(next)];
      for (const id of next) asked.add(id);
    }
    return found;
  });
}

function referred(doc: Record<string, unknown>): string[] {
  const of = doc["of"] as { id?: string } | undefined;
  const ids = [...REFERENCES.map((field) => doc[field]), of?.id];
  return ids.filter((id) => typeof id === "string");
}

async function records(db: House, ids: string[]): Promise<Map<string, Named>> {
  const [servers, rows] = await Promise.all([db.records.bulkGet(ids), db.outbox.where("id").anyOf(ids).sortBy("n")]);
  const patches = new Map<string, OutRow[]>();
  for (const row of rows) patches.set(row.id, [...(patches.get(row.id) ?? []), row]);
  const found = new Map<string, Named>();
  ids.forEach((id, at) => {
    const shown = fold(servers[at], patches.get(id) ?? [], db.account.username);
    if (shown) found.set(id, { kind: shown.kind, doc: shown.doc as unknown as Record<string, unknown> });
  });
  return found;
}
