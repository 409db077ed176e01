/** A lab's own form is read by the server when it can be reached. */
import type { FormRead } from "../db/told";
import { json, unsafe } from "./api";

/** Throws Refused: 422 with the reason in its code; status 0 when no server answers. */
export async function fetchFormRead(garden: string, pdf: ArrayBuffer): Promise<FormRead> {
  const answer = await unsafe("POST", `/gardens/${garden}/forms/fields`, pdf, { "Content-Type": "application/pdf" });
  return json<FormRead>(answer);
}
