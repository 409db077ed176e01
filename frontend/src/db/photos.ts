/** Photos on the phone: bytes as ArrayBuffer (WebKit loses Blobs), named by their SHA-256. */
import { get } from "svelte/store";
import { shrink } from "../capture/camera";
import { hashOf } from "../capture/hash";
import { currentHouse, isFull, noMorePhotos, SaveFailed, saveInHouse } from "./house";
import type { PhotoOf, Shown } from "./kinds";
import { newId, now, writeStep } from "./save";

export { noMorePhotos } from "./house";
export { PhotoRefused } from "../capture/camera";
export type PhotoSize = "thumb" | "full";
export type PhotoSource = (garden: string, sha256: string, size: PhotoSize) => Promise<ArrayBuffer | null>;

let fromServer: PhotoSource = async () => null;
/** The sync folder says how a photo is fetched; this one knows no network. */
export function photosComeFrom(source: PhotoSource): void {
  fromServer = source;
}

/** Shrinks, stores record and bytes in one transaction, answers the photo record's id. Its rating is saved before, apart. */
export async function addPhoto(garden: string, of: PhotoOf, file: Blob): Promise<string> {
  if (get(noMorePhotos)) throw new SaveFailed("full");
  const { bytes, thumb, ...facts } = await shrink(file);
  const sha256 = hashOf(bytes);
  const id = newId();
  const n_bytes = bytes.byteLength;
  const set = { of, sha256, n_bytes, ...facts, taken_at: now() };
  await saveInHouse(["records", "outbox", "blobs", "bytes"], async (db) => {
    await writeStep(db, { op: "put", garden, kind: "photo", id, set });
    await db.bytes.put({ garden, sha256, bytes });
    await db.blobs.put({ garden, sha256, mime: facts.mime, n_bytes, thumb, st: "waiting", added_at: Date.now() });
  });
  return id;
}

/** An object URL the caller revokes, or null when the picture is neither here nor to be had now. */
export async function photoUrl(photo: Shown<"photo">, size: PhotoSize): Promise<string | null> {
  const { sha256, mime } = photo.doc;
  const here = await localBytes(photo, size);
  if (here) return url(here, size === "thumb" ? "image/jpeg" : mime);
  const fetched = await fromServer(photo.garden, sha256, size);
  if (fetched && size === "thumb") await keepThumb(photo, fetched);
  return fetched ? url(fetched, "image/jpeg") : null;
}

async function localBytes({ garden, doc }: Shown<"photo">, size: PhotoSize): Promise<ArrayBuffer | null> {
  const db = currentHouse();
  const key: [string, string] = [garden, doc.sha256];
  if (size === "thumb") {
    const thumb = (await db.blobs.get(key))?.thumb;
    if (thumb) return thumb;
  }
  // A browser that had to keep a picture as it came cannot show it either; the server's copy can be shown.
  if (doc.mime !== "image/jpeg" && doc.blob === "stored") return null;
  return (await db.bytes.get(key))?.bytes ?? null;
}

async function keepThumb(photo: Shown<"photo">, thumb: ArrayBuffer): Promise<void> {
  const { sha256, mime, n_bytes } = photo.doc;
  const db = currentHouse();
  try {
    if (await db.blobs.update([photo.garden, sha256], { thumb })) return;
    await db.blobs.put({ garden: photo.garden, sha256, mime, n_bytes, thumb, st: "stored", added_at: Date.now() });
  } catch (error) {
    if (!isFull(error)) throw error; // a thumb that does not fit is fetched again next time
  }
}

function url(bytes: ArrayBuffer, type: string): string {
  return URL.createObjectURL(new Blob([bytes], { type }));
}
