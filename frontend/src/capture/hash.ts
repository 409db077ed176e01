/** The name of bytes: their SHA-256 in hex. */
import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";

export function hashOf(bytes: ArrayBuffer): string {
  // Not crypto.subtle: it is missing on a plain-http home network.
  return bytesToHex(sha256(new Uint8Array(bytes)));
}
