/** Every request to the server goes through here. Nothing queued ever carries a credential. */

import type { Me, Problem } from "./wire";

export const ROOT = "/api/v1";

/** The server answered, and it was a no. `status` 0: no answer at all. */
export class Refused extends Error {
  constructor(
    readonly status: number,
    readonly code: string,
    readonly retryAfter: number | null = null,
    readonly detail = "",
    readonly path = "", // what was asked
  ) {
    super(`${status} ${code}`);
    this.name = "Refused";
  }
}

let csrf: string | null = null;

export function useCsrf(token: string | null): void {
  csrf = token;
}

export async function me(): Promise<Me> {
  const answer = await json<Me>(await ask("GET", "/me"));
  csrf = answer.csrf;
  return answer;
}

export function getJson<T>(path: string): Promise<T> {
  return ask("GET", path).then((answer) => json<T>(answer));
}

export async function postJson<T>(path: string, body: unknown): Promise<T> {
  const answer = await unsafe("POST", path, JSON.stringify(body), { "Content-Type": "application/json" });
  return json<T>(answer);
}

const OPEN = ["/login", "/pair", "/join"]; // nobody need be signed in for these

/** An unsafe request: the token is read now, not stored with the item, and fetched anew once when the server refuses it. */
export async function unsafe(method: string, path: string, body?: BodyInit, headers: Record<string, string> = {}) {
  const send = () => ask(method, path, body, csrf ? { ...headers, "X-CSRFToken": csrf } : headers);
  if (csrf === null && !OPEN.includes(path)) await me();
  try {
    return await send();
  } catch (error) {
    if (!(error instanceof Refused) || error.code !== "csrf") throw error;
    await me();
    return send();
  }
}

export async function ask(method: string, path: string, body?: BodyInit, headers: Record<string, string> = {}): Promise<Response> {
  let answer: Response;
  try {
    const signal = AbortSignal.timeout?.(patience(path, body)) ?? null; // older phones know no such limit
    answer = await fetch(ROOT + path, { method, headers, credentials: "same-origin", signal, ...(body === undefined ? {} : { body }) });
  } catch {
    throw new Refused(0, "no_answer");
  }
  if (answer.ok || answer.status === 304) return answer;
  throw await refusal(answer, path);
}

const ORDINARY_MS = 60_000;
const BYTES_MS = 300_000;
const BYTES_PER_MS = 10; // three photos at once over 240 kbit/s
const WHOLE_MS = 3_600_000; // up to 200 MB, and no round waits for them

/** How long to wait for a whole answer [ms]. A dead line would keep the round, and with it the lock of all tabs, for ever. */
export function patience(path: string, body?: BodyInit): number {
  if (/export|arrivals|saved-files/.test(path)) return WHOLE_MS;
  if (!/blobs|papers|forms/.test(path)) return ORDINARY_MS;
  return BYTES_MS + Math.ceil((body instanceof ArrayBuffer ? body.byteLength : 0) / BYTES_PER_MS);
}

export function json<T>(answer: Response): Promise<T> {
  return whole(answer.json() as Promise<T>);
}

/** Reads an answer to its end. */
export async function whole<T>(reading: Promise<T>): Promise<T> {
  try {
    return await reading;
  } catch {
    throw new Refused(0, "cut_answer"); // the line broke in the middle, or a hotel page answered in the server's place
  }
}

async function refusal(answer: Response, path: string): Promise<Refused> {
  const problem = (await answer.json().catch(() => ({}))) as Partial<Problem>;
  const after = Number(answer.headers.get("Retry-After") ?? Number.NaN);
  return new Refused(answer.status, problem.code ?? "", Number.isFinite(after) ? after : null, problem.detail ?? "", path);
}
