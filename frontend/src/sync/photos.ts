/** Photo bytes follow their record, two at a time, named by their hash. */
import { hashOf } from "../capture/camera";
import { bytesOf, markBlob, stillWanted, waitingBlobs } from "../db/blobs";
import { forgetPhoto } from "../db/outbox";
import type { PhotoSource } from "../db/photos";
import type { BlobRow } from "../db/schema";
import { ask, Refused, unsafe } from "./api";

const AT_ONCE = 2;

/** Answers how many the server took. A full server stops photos and nothing else. */
export async function uploadPhotos(garden: string): Promise<number> {
  const queue = await waitingBlobs(garden);
  let taken = 0;
  const lane = async () => {
    for (let blob = queue.shift(); blob; blob = queue.shift()) if (await upload(blob)) taken += 1;
  };
  try {
    await Promise.all(Array.from({ length: AT_ONCE }, lane));
  } catch (error) {
    queue.length = 0;
    if (!(error instanceof Refused) || error.status !== 507) throw error;
  }
  return taken;
}

export const fetchPhoto: PhotoSource = async (garden, sha256, size) => {
  try {
    return await (await ask("GET", `/gardens/${garden}/blobs/${sha256}?size=${size}`)).arrayBuffer();
  } catch {
    return null;
  }
};

async function upload(blob: BlobRow): Promise<boolean> {
  const bytes = await bytesOf(blob);
  if (!bytes || hashOf(bytes) !== blob.sha256) {
    await markBlob(blob, "parked", bytes ? "damaged" : "bytes_missing");
    return false;
  }
  try {
    await unsafe("PUT", `/gardens/${blob.garden}/blobs/${blob.sha256}`, bytes, { "Content-Type": blob.mime });
  } catch (error) {
    return refused(blob, error);
  }
  await markBlob(blob, "sent");
  return true;
}

async function refused(blob: BlobRow, error: unknown): Promise<false> {
  if (!(error instanceof Refused)) throw error;
  if (error.status === 413 || error.status === 415) await markBlob(blob, "parked", error.code || "bad_image");
  else if (error.status === 409 && !(await stillWanted(blob))) await forgetPhoto(blob.garden, blob.sha256);
  // 409: its record has not arrived yet. 422: spoiled on the way, the bytes here were just checked. Both: next round.
  else if (error.status !== 409 && error.status !== 422) throw error;
  return false;
}
