/** Who changed a record, and what; the server alone keeps the journal. */
import { getJson } from "./api";
import type { Changes } from "./wire";

export type { Change, Changes } from "./wire";

/** A page of changes, newest first; `before`: the number of the last one known. */
export function fetchChanges(garden: string, record: string, before?: number): Promise<Changes> {
  return getJson<Changes>(`/gardens/${garden}/history?record=${record}${before ? `&before=${before}` : ""}`);
}
