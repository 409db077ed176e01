/** A garden as it travels, this phone's own changes on top: what the Python core is handed. */
import { foldAll } from "./fold";
import { currentHouse } from "./house";
import type { Kind } from "./kinds";

export interface PlainRecord {
  id: string;
  kind: Kind;
  deleted: boolean;
  doc: unknown;
}

/** Deleted records too: a sheet still names the bed its roots were dug from. */
export async function recordsOf(garden: string): Promise<PlainRecord[]> {
  const db = currentHouse();
  const [servers, patches] = await Promise.all([
    db.records.where("garden").equals(garden).toArray(),
    db.outbox.where("garden").equals(garden).sortBy("n"),
  ]);
  return foldAll<Kind>(servers, patches, db.account.username).map(({ id, kind, deleted, doc }) => ({ id, kind, deleted, doc }));
}
