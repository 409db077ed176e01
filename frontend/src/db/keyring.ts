/**
 * Who has signed in on this phone, in a database of its own that is written through at once. A browser killed a moment after
 * a sign-in forgets its cookies and its localStorage; the entries of an account that nobody remembers could not be reached.
 */
import Dexie, { type Table } from "dexie";
import type { Entry } from "./schema";

export interface Account {
  id: string;
  username: string;
}

class Keyring extends Dexie {
  entries!: Table<Entry, string>;

  constructor() {
    super("knotbed", { chromeTransactionDurability: "strict", cache: "disabled" });
    this.version(1).stores({ entries: "k" });
  }
}

const ring = new Keyring();

/** Accounts that have signed in on this phone, newest last: their databases hold their device ids and what is not sent. */
export async function knownAccounts(): Promise<Account[]> {
  return (await read<Account[]>("accounts")) ?? [];
}

/** Whose phone it is. Null after signing out; undefined when it never was anybody's. */
export function holder(): Promise<Account | null | undefined> {
  return read<Account | null>("holder");
}

export async function noteHolder(account: Account): Promise<void> {
  const before = await holder();
  if (before?.id === account.id && before.username === account.username) return;
  const others = (await knownAccounts()).filter(({ id }) => id !== account.id);
  await write({ holder: account, accounts: [...others, account] });
}

/** The server's session outlives a sign-out without a signal: noted here, it is ended at the next contact. */
export function noteLeaving(): Promise<void> {
  return write({ holder: null, sessionToEnd: true });
}

export async function hasSessionToEnd(): Promise<boolean> {
  return (await read<boolean>("sessionToEnd")) === true;
}

export function noteSessionEnded(): Promise<void> {
  return write({ sessionToEnd: false });
}

function read<T>(key: string): Promise<T | undefined> {
  return patiently(async () => (await ring.entries.get(key))?.v as T | undefined);
}

function write(values: Record<string, unknown>): Promise<void> {
  const entries = Object.entries(values).map(([k, v]) => ({ k, v }));
  return patiently(async () => void (await ring.entries.bulkPut(entries)));
}

/** WebKit drops the connection of a page that slept: try once more on a new one. */
async function patiently<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch {
    ring.close({ disableAutoOpen: false });
    return work();
  }
}
