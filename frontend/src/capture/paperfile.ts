/** Takes a PDF that a person chose, as it is: it is never opened, only measured and looked at from outside. */
import type { Paper } from "../db/kinds";

/** As much as the server takes. */
export const MOST_BYTES = 10_000_000;
const MOST_SIGNS = 80;
const BEGINS = "%PDF-";
const LOOK_BYTES = 1024; // readers allow a little in front of it (PDF 32000-1, annex H, from memory); the server does too

/** `not_pdf`: it does not begin as a PDF. `too_large`: more than the server takes. `unread`: the phone could not read it. */
export class PaperRefused extends Error {
  constructor(readonly reason: "not_pdf" | "too_large" | "unread") {
    super(`paper refused: ${reason}`);
    this.name = "PaperRefused";
  }
}

export async function asPdf(file: File): Promise<{ bytes: ArrayBuffer } & Pick<Paper, "name">> {
  if (file.size > MOST_BYTES) throw new PaperRefused("too_large");
  const bytes = await file.arrayBuffer().catch(() => {
    throw new PaperRefused("unread");
  });
  const begin = new TextDecoder("latin1").decode(bytes.slice(0, LOOK_BYTES));
  if (!begin.includes(BEGINS)) throw new PaperRefused("not_pdf");
  return { bytes, name: shortName(file.name) };
}

/** The name it came with; a long one loses its middle, so that its ending stays. */
export function shortName(name: string): string {
  const plain = name.trim() || "paper.pdf";
  return plain.length <= MOST_SIGNS ? plain : `${plain.slice(0, MOST_SIGNS - 13)}…${plain.slice(-12)}`;
}
