/** The tables on the phone. One database per account, so nobody's work leaves under another name. */
import Dexie, { type Table } from "dexie";
import type { Kind } from "./kinds";

/** The server's copy. Changed by pull and by nothing else. */
export interface ServerRow {
  id: string;
  garden: string;
  kind: Kind;
  parent: string;
  seq: number;
  deleted: boolean;
  by: string;
  device: string | null;
  rev: Record<string, number>;
  doc: Record<string, unknown>;
}

export type Op = "put" | "patch" | "delete";

/** One change made here. It leaves this table only when a pull has brought it back, or when a person throws it away. */
export interface OutRow {
  n?: number;
  mid: string;
  account: string;
  garden: string;
  kind: Kind;
  id: string;
  keys: string[]; // where a list has to look for it, see keysOf
  op: Op;
  base: number;
  at: string;
  set: Record<string, unknown>;
  st: "new" | "ack" | "parked" | "held"; // held: sent after the link had ended; with the grower, to be decided
  ack: number; // the server's number once acknowledged, else 0
  tried: number; // 1 once it may have reached the server: from then on it is never edited
  code?: string;
  field?: string;
  message?: string;
  was?: Record<string, unknown>; // deletes only: the record as it was, for undo
}

export type SentRow = Omit<OutRow, "n"> & { n?: number; sent_at: number };

export interface BlobRow {
  garden: string;
  sha256: string;
  mime: string;
  n_bytes: number;
  thumb: ArrayBuffer | null;
  // waiting: only here. sent: the server took it. shown: a pull said so. stored: the full bytes are gone from here.
  // aside: only here, of a photo that was removed; kept as long as that can be undone.
  st: "waiting" | "sent" | "shown" | "stored" | "aside" | "parked";
  added_at: number;
  code?: string;
}

export interface BytesRow {
  garden: string;
  sha256: string;
  bytes: ArrayBuffer;
}

export interface Entry {
  k: string;
  v: unknown;
}

export class House extends Dexie {
  records!: Table<ServerRow, string>;
  shadow!: Table<ServerRow, string>;
  outbox!: Table<OutRow, number>;
  sent!: Table<SentRow, number>;
  blobs!: Table<BlobRow, [string, string]>;
  bytes!: Table<BytesRow, [string, string]>;
  meta!: Table<Entry, string>;
  drafts!: Table<Entry, string>;
  ballast!: Table<Entry, string>;

  constructor(readonly account: { id: string; username: string }) {
    // strict: a flat battery right after the tap must not take the rating with it.
    // cache disabled: Dexie's cache would show a save before it is committed.
    super(`knotbed-${account.id}`, { chromeTransactionDurability: "strict", cache: "disabled" });
    this.version(1).stores({
      records: "id, kind, garden, [garden+kind], [garden+kind+parent]",
      shadow: "id, garden",
      outbox: "++n, &mid, id, garden, *keys, st, [garden+st]",
      sent: "++n, garden, id, sent_at",
      blobs: "[garden+sha256], st, [garden+st]",
      bytes: "[garden+sha256]",
      meta: "k",
      drafts: "k",
      ballast: "k",
    });
  }
}

/** The keys a list is found by: all of a kind in a garden, and all under one parent. */
export function keysOf(garden: string, kind: Kind, parents: string[]): string[] {
  const keys = new Set([kindKey(garden, kind), ...parents.map((parent) => childKey(garden, kind, parent))]);
  return kind === "garden" ? [...keys, "garden"] : [...keys];
}

export function kindKey(garden: string, kind: Kind): string {
  return `${garden}|${kind}`;
}

export function childKey(garden: string, kind: Kind, parent: string): string {
  return `${garden}|${kind}|${parent}`;
}
