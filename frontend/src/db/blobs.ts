/** Photo bytes as the sync folder uses them: what waits, and what became of it. */
import { currentHouse, inHouse } from "./house";
import type { BlobRow } from "./schema";

/** Photos whose bytes are only here, oldest first. */
export async function waitingBlobs(garden: string): Promise<BlobRow[]> {
  return currentHouse().blobs.where("[garden+st]").equals([garden, "waiting"]).sortBy("added_at");
}

export async function bytesOf({ garden, sha256 }: BlobRow): Promise<ArrayBuffer | null> {
  return (await currentHouse().bytes.get([garden, sha256]))?.bytes ?? null;
}

export async function markBlob({ garden, sha256 }: BlobRow, st: BlobRow["st"], code?: string): Promise<void> {
  await inHouse(["blobs"], (db) => db.blobs.update([garden, sha256], { st, code }));
}

/** Is there a photo record, here or on the server, that names these bytes? A photo that was removed has none. */
export async function stillWanted({ garden, sha256 }: BlobRow): Promise<boolean> {
  const db = currentHouse();
  const queued = await db.outbox.where("keys").equals(`${garden}|photo`).toArray();
  if (queued.some((row) => row.set["sha256"] === sha256)) return true;
  const records = await db.records.where("[garden+kind]").equals([garden, "photo"]).toArray();
  return records.some((row) => !row.deleted && row.doc["sha256"] === sha256);
}
