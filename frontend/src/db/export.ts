/** Everything that is only on this phone as one readable file, also when nobody is signed in on the server. */
import { base64 } from "./base64";
import { currentHouse } from "./house";
import { now } from "./save";
import type { House, OutRow } from "./schema";

const ABOUT =
  "This file holds what was saved on a phone in Knotbed and had not yet reached the garden's server when it was written: " +
  "first the changes in the order they were made, then the photos and papers (PDF) as base64 text. Keep it until the phone says that all is sent.";

export async function saveAllToFile(db: House = currentHouse()): Promise<Blob> {
  const rows = await db.outbox.where("st").anyOf("new", "parked").sortBy("n");
  const blobs = await db.blobs.where("st").anyOf("waiting", "parked").toArray();
  const head = { about: ABOUT, written_at: now(), account: db.account, changes: rows.map(change) };
  const parts: BlobPart[] = [JSON.stringify(head, null, 2).replace(/\n}$/, ',\n  "photos": [')];
  for (const [at, blob] of blobs.entries()) {
    // One photo at a time: a hundred of them as text would not fit in an old phone's memory.
    const bytes = (await db.bytes.get([blob.garden, blob.sha256]))?.bytes;
    const { garden, sha256, mime, n_bytes } = blob;
    const photo = { garden, sha256, mime, n_bytes, base64: bytes ? base64(bytes) : null };
    parts.push(`${at > 0 ? "," : ""}\n    ${JSON.stringify(photo)}`);
  }
  parts.push("\n  ]\n}\n");
  return new Blob(parts, { type: "application/json" });
}

function change(row: OutRow) {
  const { mid, garden, op, kind, id, base, at, set, st, code, message } = row;
  return { mid, garden, op, kind, id, base, at, set, refused: st === "parked" ? { code, message } : null };
}
