/** Sends the outbox in batches. One bad item never holds the others: it is found by halving and parked for a person. */
import { numberOf, progressOf, raiseHigh } from "../db/feed";
import { thisDevice } from "../db/device";
import { standingOf } from "../db/rights";
import { now } from "../db/save";
import type { House, OutRow } from "../db/schema";
import { nextBatch, park, type Result, settle } from "../db/send";
import { getJson, json, Refused, unsafe } from "./api";
import type { Push, Pushed } from "./wire";

const MOST_ITEMS = 200;
const MOST_BYTES = 500_000; // the server takes 524,288; the envelope needs the rest
const GZIP_FROM = 1_000;
const ERRORS_BEFORE_HALVING = 3;

const serverErrors = new Map<string, number>();

/** Answers how many items the server settled. Throws Refused for what concerns the whole garden or the session. */
export async function push(db: House, garden: string): Promise<number> {
  const later = new Set<string>();
  let most = MOST_ITEMS;
  let settled = 0;
  let halving = false; // once begun it goes on to the end of this run, over the batches that succeed in between
  for (;;) {
    const batch = await nextBatch(db, garden, most, sizeOf, MOST_BYTES, later);
    if (batch.length === 0) return settled;
    try {
      const answer = await send(db, garden, batch);
      serverErrors.delete(garden);
      const again = await settle(db, batch, answer.results, () => raiseHigh(db, garden, answer.head));
      for (const mid of unanswered(batch, answer.results).concat(again)) later.add(mid);
      settled += batch.length;
      most = Math.min(MOST_ITEMS, most * 2);
    } catch (error) {
      if (!isAboutTheBatch(error) && !(isServerError(error) && (halving ||= isThirdError(garden)))) throw error;
      if (batch.length === 1) await parkCulprit(db, garden, batch[0]!, error);
      else most = Math.ceil(batch.length / 2);
    }
  }
}

function isAboutTheBatch(error: unknown): error is Refused {
  return error instanceof Refused && (error.status === 400 || error.status === 413);
}

function isServerError(error: unknown): error is Refused {
  return error instanceof Refused && error.status === 500;
}

function isThirdError(garden: string): boolean {
  const seen = (serverErrors.get(garden) ?? 0) + 1;
  serverErrors.set(garden, seen);
  return seen >= ERRORS_BEFORE_HALVING;
}

async function parkCulprit(db: House, garden: string, row: OutRow, error: Refused): Promise<void> {
  // A server that fails at everything is not the item's fault: it must be able to answer something else.
  if (error.status === 500) await getJson(`/gardens/${garden}/pull?cursor=${numberOf((await progressOf(db, garden)).high)}&limit=1`);
  await park(db, row, error.code || `http_${error.status}`, error.detail);
}

async function send(db: House, garden: string, batch: OutRow[]): Promise<Pushed> {
  // Once a link has ended the history cannot be read anew, so no mark of it is shown: the changes are all that counts.
  const ended = (await standingOf(db, garden))?.state === "ended";
  const high = ended ? null : (await progressOf(db, garden)).high;
  const body: Push = { proto: 1, schema: 1, device: await thisDevice(db), sent_at: now(), high, mutations: batch.map(mutation) };
  const text = JSON.stringify(body);
  const headers = { "Content-Type": "application/json" };
  const packed = text.length >= GZIP_FROM ? await gzip(text) : null;
  const answer = packed
    ? await unsafe("POST", `/gardens/${garden}/push`, packed, { ...headers, "Content-Encoding": "gzip" })
    : await unsafe("POST", `/gardens/${garden}/push`, text, headers);
  return json<Pushed>(answer);
}

function mutation({ mid, op, kind, id, base, at, set }: OutRow) {
  return { mid, op, kind, id, base, at, ...(op === "delete" ? {} : { set }) };
}

const encoder = new TextEncoder();
function sizeOf(row: OutRow): number {
  return encoder.encode(JSON.stringify(mutation(row))).length + 1;
}

function unanswered(batch: OutRow[], results: Result[]): string[] {
  const answered = new Set(results.map((result) => result.mid ?? ""));
  return batch.map((row) => row.mid).filter((mid) => !answered.has(mid));
}

async function gzip(text: string): Promise<ArrayBuffer | null> {
  if (typeof CompressionStream === "undefined") return null;
  return new Response(new Blob([text]).stream().pipeThrough(new CompressionStream("gzip"))).arrayBuffer();
}
