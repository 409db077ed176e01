/**
 * A garden server small enough to read: order, journal, merge and tag chain as the protocol asks, in memory.
 * It stands in for the line and its faults; the real server is asked in real_server.test.ts.
 */
import { createHash } from "node:crypto";
import { gunzipSync } from "node:zlib";

interface Row {
  id: string;
  kind: string;
  seq: number;
  deleted: boolean;
  by: string;
  device: string;
  doc: Record<string, unknown>;
  ver: Record<string, [number, string]>;
}
interface Logged {
  mid: string;
  seq: number;
  tag: string;
  device: string;
  status: string;
  body?: Mutation;
}
interface GardenState {
  rows: Map<string, Row>;
  journal: Logged[];
}
interface Mutation {
  mid: string;
  op: string;
  kind: string;
  id: string;
  base: number;
  at: string;
  set?: Record<string, unknown>;
}

const START = "0".repeat(16);
const KINDS = ["garden", "bed", "planting", "root_check", "gall_rating", "photo", "lab_profile", "soil_sample"];
const SHEETS = ["bed-map", "rating-form", "submission"];
/** As the server's own table says it of an owner and of one who rates. */
export const OWNER = { make: KINDS, change: KINDS, change_own: KINDS, settle: true, links: true, export: true, sheets: SHEETS };
export const RATER = { make: ["gall_rating", "photo"], change: [], change_own: ["gall_rating", "photo"], settle: false, links: false, export: false, sheets: SHEETS.slice(0, 2) };

/** How the account stands in a garden, where it does not own it. `closed`: the server takes nothing more and lists it no longer. */
export interface Guest {
  role: string;
  rights: typeof OWNER;
  state?: "live" | "ended" | "closed";
}

export class GardenServer {
  gardens = new Map<string, GardenState>();
  blobs = new Map<string, Uint8Array>();
  signedIn = true;
  csrf = "token-1";
  account = { id: "", username: "" };
  isHelper = false;
  guests = new Map<string, Guest>();
  /** Secrets of links, and the garden each opens. */
  links = new Map<string, string>();
  device = "";
  requests: string[] = [];
  pushed: Mutation[][] = [];
  /** Called before each request; may answer in the server's place, or throw as a broken line does. */
  fault: (method: string, path: string, body: { mutations?: Mutation[] } | null) => Response | null | undefined = () => null;
  /** When true the next push is stored but its answer is lost on the way. */
  loseAnswer = false;
  reject: (mutation: Mutation) => { code: string; field?: string } | null = () => null;

  fetch = async (url: string | URL | Request, init: RequestInit = {}): Promise<Response> => {
    const at = new URL(String(url), "http://garden.test");
    const path = at.pathname.replace("/api/v1", "");
    const method = init.method ?? "GET";
    this.requests.push(`${method} ${path}`);
    const headers = new Headers(init.headers);
    const json = headers.get("Content-Type") === "application/json" ? parse(init.body, headers) : null;
    const broken = this.fault(method, path, json);
    if (broken) return broken;
    const open = ["/login", "/pair", "/join"].includes(path);
    if (!this.signedIn && !open) return problem(401, "login_needed");
    if (method !== "GET" && !(open && !this.signedIn) && headers.get("X-CSRFToken") !== this.csrf) return problem(403, "csrf");
    const [, , garden, what, sha] = path.split("/");
    if (path === "/me") return ok({ account: { ...this.account, is_helper: this.isHelper }, csrf: this.csrf, device: this.device, gardens: this.listed() });
    if (path === "/login" || path === "/pair") return this.enter(json as never);
    if (path === "/join") return this.join(json as never);
    if (path === "/pairings") return ok({ token: "a token", url: "", expires_at: "" });
    if (path === "/logout") return this.leave();
    const state = this.guests.get(garden!)?.state ?? "live";
    if (state === "closed" || (state === "ended" && what === "pull")) return problem(403, "share_ended");
    if (what === "push") return this.push(garden!, json as never);
    if (what === "pull") return this.pull(garden!, at.searchParams);
    if (what === "briefing") return this.briefing(garden!, at.searchParams.get("today")!);
    return this.blob(method, garden!, what === "papers" ? "paper" : "photo", sha!, init.body as ArrayBuffer);
  };

  backup(): Map<string, GardenState> {
    return structuredClone(this.gardens);
  }

  private listed() {
    const shown = [...this.gardens].filter(([id]) => this.guests.get(id)?.state !== "closed");
    return shown.map(([id, garden]) => {
      const { role = "owner", rights = OWNER, state = "live" } = this.guests.get(id) ?? {};
      const push_until = state === "ended" ? "2026-09-01T00:00:00Z" : null;
      return { id, name: "", head: head(garden), role, state, called: this.account.username, expires_at: null, push_until, rights };
    });
  }

  private leave(): Response {
    this.signedIn = false;
    return new Response(null, { status: 204 });
  }

  private enter({ device }: { device: string }): Response {
    this.signedIn = true;
    this.device = device;
    return ok({ account: this.account, csrf: this.csrf, device });
  }

  private join({ token, device, name }: { token: string; device: string; name: string }): Response {
    const garden = this.links.get(token);
    if (!garden) return problem(403, "link_ended");
    if (!this.signedIn) {
      this.account = { id: `0199f000-0000-7000-9000-${device.slice(-12)}`, username: name };
      this.isHelper = true;
      this.device = device;
      this.signedIn = true;
    }
    this.guests.set(garden, { role: "rater", rights: RATER });
    return ok({ account: this.account, csrf: this.csrf, device: this.device, garden, role: "rater", garden_name: "Hill" });
  }

  private push(garden: string, body: { device: string; high: string | null; mutations: Mutation[] }): Response {
    const begun = body.mutations[0];
    let state = this.gardens.get(garden);
    if (!state && begun?.op === "put" && begun.id === garden) this.gardens.set(garden, (state = { rows: new Map(), journal: [] }));
    if (!state) return problem(404, "not_found");
    if (!knows(state, body.high)) return problem(409, "history_changed");
    this.pushed.push(body.mutations);
    const ended = this.guests.get(garden)?.state === "ended";
    const results = body.mutations.map((mutation) => (ended ? hold(state, mutation, this.account.username) : this.apply(state, mutation, body.device)));
    if (this.loseAnswer) {
      this.loseAnswer = false;
      throw new TypeError("the line broke");
    }
    return ok({ head: head(state), server_time: "2026-08-01T10:00:00Z", results });
  }

  private apply(state: GardenState, mutation: Mutation, device: string) {
    const { mid } = mutation;
    const before = state.journal.find((logged) => logged.mid === mid);
    if (before) return { mid, status: "duplicate", was: before.status, seq: before.seq };
    const refused = this.reject(mutation) ?? unknownHere(state, mutation);
    if (refused) return { mid, status: "rejected", ...refused, message: "not like that" };
    const seq = state.journal.length + 1;
    const row = state.rows.get(mutation.id) ?? blank(mutation, device, this.account.username);
    const foreign = merge(row, mutation, seq, device);
    state.rows.set(row.id, row);
    const status = foreign.length > 0 ? "conflict" : "applied";
    state.journal.push({ mid, seq, device, status, tag: tagAfter(state, mid), body: mutation });
    for (const field of foreign) note(state, row, field, mutation, device);
    return { mid, status, seq, ...(foreign.length > 0 ? { fields: foreign } : {}) };
  }

  private pull(garden: string, query: URLSearchParams): Response {
    const state = this.gardens.get(garden);
    if (!state) return problem(404, "not_found");
    if (!knows(state, query.get("high"))) return problem(409, "history_changed");
    const cursor = Number(query.get("cursor") ?? 0);
    const limit = Number(query.get("limit") ?? 500);
    const due = [...state.rows.values()].filter((row) => row.seq > cursor).sort((a, b) => a.seq - b.seq);
    const page = due.slice(0, limit);
    const more = due.length > page.length;
    const records = page.map(({ ver, ...row }) => ({ ...row, rev: Object.fromEntries(Object.entries(ver).map(([f, [n]]) => [f, n])) }));
    return ok({ cursor: more ? page.at(-1)!.seq : state.journal.length, head: head(state), more, schema: 1, records });
  }

  private briefing(garden: string, today: string): Response {
    const state = this.gardens.get(garden);
    if (!state) return problem(404, "not_found");
    return ok({ head: head(state), briefing: { today, garden: { name: "" }, beds: [], lines: [] } });
  }

  private blob(method: string, garden: string, kind: string, sha: string, body: ArrayBuffer): Response {
    const state = this.gardens.get(garden);
    const record = [...(state?.rows.values() ?? [])].find((row) => row.kind === kind && row.doc["sha256"] === sha && !row.deleted);
    if (method !== "PUT") return this.blobs.has(sha) ? new Response(this.blobs.get(sha) as BodyInit) : problem(404, "not_found");
    if (!state || !record) return problem(409, `no_${kind}_record`);
    if (createHash("sha256").update(new Uint8Array(body)).digest("hex") !== sha) return problem(422, "hash_mismatch");
    const status = this.blobs.has(sha) ? 200 : 201;
    this.blobs.set(sha, new Uint8Array(body));
    record.doc["blob"] = "stored";
    const mid = `blob-${sha}-${state.journal.length}`;
    record.seq = state.journal.length + 1;
    state.journal.push({ mid, seq: record.seq, device: "server", status: "applied", tag: tagAfter(state, mid) });
    return new Response(null, { status });
  }
}

export function problem(status: number, code: string, headers: Record<string, string> = {}): Response {
  return new Response(JSON.stringify({ status, code }), { status, headers });
}

function ok(body: unknown): Response {
  return new Response(JSON.stringify(body), { status: 200 });
}

function parse(body: unknown, headers: Headers) {
  if (typeof body === "string") return JSON.parse(body);
  const bytes = new Uint8Array(body as ArrayBuffer);
  return JSON.parse(new TextDecoder().decode(headers.get("Content-Encoding") === "gzip" ? gunzipSync(bytes) : bytes));
}

function head(state: GardenState): string {
  return `${state.journal.length}.${state.journal.at(-1)?.tag ?? START}`;
}

function knows(state: GardenState, high: string | null): boolean {
  if (!high) return true;
  const [n, tag] = high.split(".");
  return Number(n) === 0 || state.journal[Number(n) - 1]?.tag === tag;
}

function tagAfter(state: GardenState, mid: string): string {
  return createHash("sha256").update((state.journal.at(-1)?.tag ?? START) + mid).digest("hex").slice(0, 16);
}

/** Only a put makes a record, and a conflict is made by nobody but the server. */
function unknownHere(state: GardenState, { op, kind, id }: Mutation) {
  if (op === "put") return kind === "conflict" ? { code: "forbidden" } : null;
  return state.rows.has(id) ? null : { code: "not_found" };
}

function blank({ id, kind }: Mutation, device: string, by: string): Row {
  return { id, kind, seq: 0, deleted: false, by, device, doc: kind === "photo" ? { blob: "pending" } : {}, ver: {} };
}

function merge(row: Row, { op, base, set = {} }: Mutation, seq: number, device: string): string[] {
  const isForeign = (field: string) => {
    const [at, who] = row.ver[field] ?? [0, device];
    return at > base && who !== device;
  };
  if (op === "delete") {
    const kept = Object.keys(row.ver).some(isForeign);
    row.deleted = !kept;
    row.seq = seq;
    return kept ? ["deleted"] : [];
  }
  const foreign = Object.keys(set).filter((field) => isForeign(field) && JSON.stringify(row.doc[field]) !== JSON.stringify(set[field]));
  for (const [field, value] of Object.entries(set)) {
    if (foreign.includes(field)) continue;
    row.doc[field] = value;
    row.ver[field] = [seq, device];
  }
  row.deleted = false;
  row.seq = seq;
  return foreign;
}

/** After the link's end: set aside as a record of its own, for somebody who may decide. */
function hold(state: GardenState, { mid, op, kind, id, base, at, set = {} }: Mutation, by: string) {
  const before = state.journal.find((logged) => logged.mid === mid);
  if (before) return { mid, status: "duplicate", was: before.status, seq: before.seq };
  const seq = state.journal.length + 1;
  const doc = { op, kind, of: { kind, id }, set, base, mid, by, by_device: "", at, why: "link_ended", state: "waiting", closed_by: "" };
  const held = crypto.randomUUID();
  state.rows.set(held, { id: held, kind: "held", seq, deleted: false, by, device: "server", doc, ver: { state: [seq, "server"] } });
  state.journal.push({ mid, seq, device: "server", status: "held", tag: tagAfter(state, mid) });
  return { mid, status: "held", seq };
}

function note(state: GardenState, row: Row, field: string, mutation: Mutation, device: string): void {
  const id = crypto.randomUUID();
  const seq = state.journal.length + 1;
  const doc = { of: { kind: row.kind, id: row.id }, field, kept: row.doc[field], other: mutation.set?.[field] ?? true, other_by: "", other_at: mutation.at, state: "open", closed_by: "" };
  state.rows.set(id, { id, kind: "conflict", seq, deleted: false, by: "server", device, doc, ver: { state: [seq, "server"] } });
  state.journal.push({ mid: id, seq, device: "server", status: "applied", tag: tagAfter(state, id) });
}
