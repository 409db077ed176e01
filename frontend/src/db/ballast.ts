/**
 * A reserve of 5 MB. On a full disk even a 200-byte rating fails; giving the reserve back makes room for hundreds.
 * No browser says how much is really free, so waiting for a warning is not possible.
 */
import type { House } from "./schema";

const RESERVE_BYTES = 5_000_000;

/** False: there is no room for the reserve, so there is none for photos either. */
export async function growBallast(db: House): Promise<boolean> {
  try {
    if ((await db.ballast.count()) > 0) return true;
    await db.ballast.put({ k: "reserve", v: noise(RESERVE_BYTES) });
    return true;
  } catch {
    return false;
  }
}

export async function freeBallast(db: House): Promise<void> {
  await db.ballast.clear();
}

/** Zeros would be packed to nothing by the browser's store, and a reserve of nothing frees nothing. */
function noise(n: number): ArrayBuffer {
  const bytes = new Uint8Array(n);
  for (let at = 0; at < n; at += 65_536) crypto.getRandomValues(bytes.subarray(at, Math.min(at + 65_536, n)));
  return bytes.buffer;
}
