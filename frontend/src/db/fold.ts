/** What a screen shows: the server's copy with this phone's own changes laid on top, in the order they were made. */
import { type Kind, type Shown, withDefaults } from "./kinds";
import type { OutRow, ServerRow } from "./schema";

export interface Folded<K extends Kind> extends Shown<K> {
  deleted: boolean;
}

/**
 * Null when there is nothing to show: the record is neither on the server nor put by this phone.
 * Acknowledged rows count like waiting ones; they go only when the server's copy holds them too,
 * so an acknowledgement never changes the picture. Parked rows stay visible: they are what the person typed.
 */
export function fold<K extends Kind>(server: ServerRow | undefined, patches: OutRow[], me: string): Folded<K> | null {
  let known = server !== undefined;
  let deleted = server?.deleted ?? false;
  let fields: Record<string, unknown> = server ? { ...server.doc } : {};
  for (const row of patches) {
    if (row.op === "delete") {
      deleted = true;
      continue;
    }
    if (row.op === "put") {
      known = true;
      deleted = false;
    }
    fields = { ...fields, ...row.set };
  }
  const any = server ?? patches[0];
  if (!known || !any) return null;
  return {
    id: any.id,
    kind: any.kind as K,
    garden: any.garden,
    doc: withDefaults(any.kind as K, fields),
    seq: server?.seq ?? 0,
    unsent: patches.some((row) => row.st === "new" || row.st === "parked"),
    parked: patches.some((row) => row.st === "parked"),
    by: server?.by ?? me,
    deleted,
  };
}

/** Fold many records at once; both lists may hold rows of several records, patches in the order they were made. */
export function foldAll<K extends Kind>(servers: ServerRow[], patches: OutRow[], me: string): Folded<K>[] {
  const byId = new Map<string, { server?: ServerRow; rows: OutRow[] }>();
  for (const server of servers) byId.set(server.id, { server, rows: [] });
  for (const row of patches) {
    const entry = byId.get(row.id) ?? { rows: [] };
    entry.rows.push(row);
    byId.set(row.id, entry);
  }
  const shown: Folded<K>[] = [];
  for (const { server, rows } of byId.values()) {
    const record = fold<K>(server, rows, me);
    if (record) shown.push(record);
  }
  return shown.sort((a, b) => (a.id < b.id ? -1 : 1));
}
