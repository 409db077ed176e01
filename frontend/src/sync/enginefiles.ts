/** Keeps what the Python core needs to run here, and what draws pages of PDFs, in a cache of its own that outlives updates of the app. */
import engine from "virtual:engine-files";

const CACHE = "engine"; // the service worker answers from it
const ARCHIVE = engine.archive;
export const INDEX = engine.index;
/** Where what draws pages of PDFs lies. */
export const PAGES = engine.pages;

/** How much there is to fetch [bytes on the line]. */
export const WIRE_BYTES = engine.files.reduce((sum, { wire }) => sum + wire, 0);
const ALL_BYTES = engine.files.reduce((sum, { bytes }) => sum + bytes, 0);

export interface Progress {
  done: number;
  total: number;
}

/** Browsers hide the cache on plain http: there is then no place to keep the engine. */
export function canKeep(): boolean {
  return typeof caches !== "undefined";
}

export async function isHere(): Promise<boolean> {
  return (await missing(await caches.open(CACHE))).length === 0;
}

/** Fetches what is missing, file by file; what came stays, so that a broken line costs one file at most. */
export async function fetchMissing(tell: (progress: Progress) => void): Promise<void> {
  const cache = await caches.open(CACHE);
  const wanted = await missing(cache);
  let done = ALL_BYTES - wanted.reduce((sum, { bytes }) => sum + bytes, 0);
  for (const { path } of wanted) {
    const count = (n: number) => tell({ done: (done += n), total: ALL_BYTES });
    await cache.put(path, await whole(path, count));
  }
  await dropOld(cache);
}

/** The packed core; null when it has been cleared away meanwhile. */
export async function archiveBytes(): Promise<ArrayBuffer | null> {
  const kept = await (await caches.open(CACHE)).match(ARCHIVE);
  return kept ? kept.arrayBuffer() : null;
}

/** The browser says that the person pays for each megabyte, or asked pages to be sparing. */
export function isCostly(): boolean {
  const line = (navigator as { connection?: { saveData?: boolean; type?: string } }).connection;
  return line?.saveData === true || line?.type === "cellular";
}

async function missing(cache: Cache) {
  const held = await Promise.all(engine.files.map(async (file) => ({ file, here: await cache.match(file.path) })));
  return held.filter(({ here }) => !here).map(({ file }) => file);
}

/** Read to its end first: the cache would take half a file for a whole one. */
async function whole(path: string, count: (n: number) => void): Promise<Response> {
  const answer = await fetch(path, { cache: "no-store" });
  if (!answer.ok || !answer.body) throw new Error(`${path}: ${answer.status}`);
  const parts: Uint8Array<ArrayBuffer>[] = [];
  const reader = answer.body.getReader();
  for (let part = await reader.read(); !part.done; part = await reader.read()) {
    parts.push(part.value);
    count(part.value.length);
  }
  return new Response(new Blob(parts), { headers: { "Content-Type": answer.headers.get("Content-Type") ?? "" } });
}

async function dropOld(cache: Cache): Promise<void> {
  const wanted = new Set(engine.files.map(({ path }) => path));
  const old = (await cache.keys()).filter((request) => !wanted.has(new URL(request.url).pathname));
  await Promise.all(old.map((request) => cache.delete(request)));
}
