/** Papers (PDF) on the phone: kept like the bytes of photos, but as they came, and there without a signal. */
import { get } from "svelte/store";
import { hashOf } from "../capture/hash";
import { asPdf } from "../capture/paperfile";
import { isPaper } from "./blobs";
import { currentHouse, isFull, noMorePhotos, SaveFailed, saveInHouse } from "./house";
import type { Paper, Shown } from "./kinds";
import { newId, writeStep } from "./save";
import type { House } from "./schema";

export { PaperRefused } from "../capture/paperfile";
export type PaperSource = (garden: string, sha256: string) => Promise<ArrayBuffer | null>;

const MIME = "application/pdf";

let fromServer: PaperSource = async () => null;
/** The sync folder says how a paper is fetched; this one knows no network. */
export function papersComeFrom(source: PaperSource): void {
  fromServer = source;
}

/** Record and bytes in one transaction; answers the record's id. Throws PaperRefused or SaveFailed: then nothing is kept. */
export async function addPaper(garden: string, of: Paper["of"], file: File): Promise<string> {
  if (get(noMorePhotos)) throw new SaveFailed("full");
  const { bytes, name } = await asPdf(file);
  const sha256 = hashOf(bytes);
  const n_bytes = bytes.byteLength;
  const id = newId();
  await saveInHouse(["records", "outbox", "blobs", "bytes"], async (db) => {
    await writeStep(db, { op: "put", garden, kind: "paper", id, set: { of, name, sha256, n_bytes } });
    await db.bytes.put({ garden, sha256, bytes });
    await db.blobs.put({ garden, sha256, mime: MIME, n_bytes, thumb: null, st: "waiting", added_at: Date.now() });
  });
  return id;
}

/** Null: neither here nor to be had now. What was fetched stays here. */
export async function readPaper({ garden, doc }: Pick<Shown<"paper">, "garden" | "doc">): Promise<ArrayBuffer | null> {
  const db = currentHouse();
  const here = (await db.bytes.get([garden, doc.sha256]))?.bytes;
  if (here) return here;
  const fetched = await fromServer(garden, doc.sha256);
  if (!fetched || hashOf(fetched) !== doc.sha256) return null;
  await keepFetched(db, garden, doc, fetched);
  return fetched;
}

/** Those the server holds and this phone does not. */
export async function papersToFetch(db: House, garden: string): Promise<Paper[]> {
  const rows = await db.records.where("[garden+kind]").equals([garden, "paper"]).toArray();
  const papers = rows.filter((row) => !row.deleted).map((row) => row.doc as unknown as Paper);
  const held = await db.bytes.bulkGet(papers.map(({ sha256 }) => [garden, sha256]));
  return papers.filter(({ blob }, at) => blob === "stored" && !held[at]);
}

/** A full phone goes without: it can be fetched again. Nobody is told "not saved". */
export async function keepFetched(db: House, garden: string, { sha256, n_bytes }: Paper, bytes: ArrayBuffer): Promise<void> {
  if (get(noMorePhotos)) return;
  try {
    await db.transaction("rw", ["blobs", "bytes"], async () => {
      const known = await db.blobs.get([garden, sha256]);
      if (known && !isPaper(known)) return;
      await db.bytes.put({ garden, sha256, bytes });
      await db.blobs.put({ ...(known ?? { garden, sha256, mime: MIME, n_bytes, thumb: null, added_at: Date.now() }), st: "shown" });
    });
  } catch (error) {
    if (!isFull(error)) throw error;
  }
}
