// What a made PDF is called on the phone, so that the second one is not "(1)" of the first.
import { printText as words } from "../../text/en/print.ts";

/** "Soil sample K7M2-H.pdf": signs a file name cannot hold become spaces, and it is never longer than a phone shows. */
export function fileName(kind: keyof typeof words.files, parts: string[]): string {
  const said = [words.files[kind], ...parts].join(" ").replace(/[^\p{L}\p{N}\p{M} .-]+/gu, " ");
  return `${said.replace(/\s+/g, " ").trim().slice(0, 80).trim()}.pdf`;
}
