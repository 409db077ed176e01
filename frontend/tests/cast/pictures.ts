/** Pictures as phones' cameras make them. */

/** A file no canvas of node can open, but of the kind a phone's camera makes; so it goes as it is. */
export function heic(fill: number): Blob {
  const bytes = new Uint8Array(64).fill(fill);
  bytes.set([0, 0, 0, 24, ...new TextEncoder().encode("ftypheic")], 0);
  bytes.set([...new TextEncoder().encode("ispe"), 0, 0, 0, 0, 0, 0, 15, 192, 0, 0, 11, 208], 24);
  return new Blob([bytes]);
}
