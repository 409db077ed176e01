/** Just enough of the ISO base media file format (ISO/IEC 14496-12, 23008-12) to know a HEIC file and its size. */

const BRANDS = ["heic", "heix", "heim", "heis", "hevc", "mif1", "msf1"];

export function isHeic(bytes: ArrayBuffer): boolean {
  return bytes.byteLength >= 12 && ascii(bytes, 4) === "ftyp" && BRANDS.includes(ascii(bytes, 8));
}

/** The largest `ispe` (image spatial extents) property: the tiles and thumbnail of the same file have smaller ones. */
export function heicSize(bytes: ArrayBuffer): { width: number; height: number } {
  const view = new DataView(bytes);
  let best = { width: 1, height: 1 };
  const end = Math.min(bytes.byteLength - 16, 65_536);
  for (let at = 0; at < end; at += 1) {
    if (view.getUint32(at) !== 0x69737065) continue; // "ispe", then version and flags, width, height
    const found = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
    if (found.width * found.height > best.width * best.height) best = found;
  }
  return { width: within(best.width), height: within(best.height) };
}

function within(px: number): number {
  return Math.min(Math.max(px, 1), 10_000);
}

function ascii(bytes: ArrayBuffer, at: number): string {
  return String.fromCharCode(...new Uint8Array(bytes, at, 4));
}
