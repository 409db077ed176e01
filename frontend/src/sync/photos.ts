/** Bytes of photos and papers follow their record, three at a time, named by their hash. */
import { hashOf } from "../capture/hash";
import { bytesOf, isPaper, markBlob, waitingBlobs, withoutRecord } from "../db/blobs";
import type { PhotoSource } from "../db/photos";
import type { BlobRow, House } from "../db/schema";
import { ask, Refused, unsafe } from "./api";

const AT_ONCE = 3; // two would end together and leave the line idle while the server answers
const PHOTOS_ONLY = new Set(["server_full", "photos_away", "photos_busy"]);
const REST_S = 60;

/** From when on the server takes bytes of a garden again [ms since 1970]. */
const putOff = new Map<string, number>();

/** Whatever the server asked: a person wants them to go. */
export function tryBytesAgain(): void {
  putOff.clear();
}

/** How long until bytes that were put off may go [ms]; Infinity when none were. */
export function bytesRest(): number {
  const now = Date.now();
  return Math.min(...[...putOff.values()].filter((at) => at > now)) - now;
}

/** Answers how many the server took. A server with no place for them, or asking for a rest, stops these and nothing else. */
export async function uploadBytes(db: House, garden: string): Promise<number> {
  if (Date.now() < (putOff.get(garden) ?? 0)) return 0;
  const queue = await waitingBlobs(db, garden);
  const failed: unknown[] = [];
  let taken = 0;
  const lane = async () => {
    try {
      for (let blob = queue.shift(); blob; blob = queue.shift()) if (await upload(db, blob)) taken += 1;
    } catch (error) {
      queue.length = 0;
      failed.push(error);
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, lane)); // none goes on past the round
  const worse = failed.filter((error) => !isForBytes(garden, error));
  if (worse.length > 0) throw worse[0];
  return taken;
}

function isForBytes(garden: string, error: unknown): boolean {
  if (!(error instanceof Refused)) return false;
  const { status, code, retryAfter } = error;
  if (status === 429) putOff.set(garden, Date.now() + (retryAfter ?? REST_S) * 1_000);
  return status === 429 || PHOTOS_ONLY.has(code);
}

export const fetchPhoto: PhotoSource = async (garden, sha256, size) => {
  try {
    return await (await ask("GET", `/gardens/${garden}/blobs/${sha256}?size=${size}`)).arrayBuffer();
  } catch {
    return null;
  }
};

async function upload(db: House, blob: BlobRow): Promise<boolean> {
  const bytes = await bytesOf(db, blob);
  if (!bytes || hashOf(bytes) !== blob.sha256) {
    await markBlob(db, blob, "parked", bytes ? "damaged" : "bytes_missing");
    return false;
  }
  try {
    const shelf = isPaper(blob) ? "papers" : "blobs";
    await unsafe("PUT", `/gardens/${blob.garden}/${shelf}/${blob.sha256}`, bytes, { "Content-Type": blob.mime });
  } catch (error) {
    return refused(db, blob, error);
  }
  await markBlob(db, blob, "sent");
  return true;
}

async function refused(db: House, blob: BlobRow, error: unknown): Promise<false> {
  if (!(error instanceof Refused)) throw error;
  if (error.status === 413 || error.status === 415) await markBlob(db, blob, "parked", error.code || "bad_image");
  else if (error.status === 409) await withoutRecord(db, blob);
  // 422: spoiled on the way, for the bytes here were just checked; the next round tries again.
  else if (error.status !== 422) throw error;
  return false;
}
