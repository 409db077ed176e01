/** Opens the account's database and runs every transaction, so a dead handle or a full disk is met in one place. */
import { type Readable, get, writable } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { freeBallast, growBallast } from "./ballast";
import { recall, remember } from "./pocket";
import { House } from "./schema";

export interface Account {
  id: string;
  username: string;
}
export type TableName =
  | "records" | "shadow" | "outbox" | "sent" | "blobs" | "bytes" | "meta" | "drafts" | "ballast";

/** The change is not on the phone. `full`: no room even after the reserve was freed. `broken`: the database refused twice. */
export class SaveFailed extends Error {
  constructor(readonly reason: "full" | "broken", cause?: unknown) {
    super(`not saved: ${reason}`, { cause });
    this.name = "SaveFailed";
  }
}

const ACCOUNT = "account";
const sessionStore = writable<{ account: Account | null }>({ account: recall<Account>(ACCOUNT) });
/** Who this phone belongs to. Remembered, so it is known without a signal; it says nothing about the server's session. */
export const session: Readable<{ account: Account | null }> = { subscribe: sessionStore.subscribe };

const openStore = writable<House | null>(null);
/** The open database, or null. Lists follow it, so they survive a change of account. */
export const house: Readable<House | null> = { subscribe: openStore.subscribe };

const troubleStore = writable<null | "other_version" | "blocked">(null);
/** `other_version`: a newer page changed the database, reload. `blocked`: an old page is open elsewhere, close it. */
export const houseTrouble: Readable<null | "other_version" | "blocked"> = { subscribe: troubleStore.subscribe };

/** True while the last save failed; the next good save clears it. */
export const notSaved = writable(false);
/** True once the disk was full: ratings still fit, photos no longer taken. */
export const noMorePhotos = writable(false);

/** `device`: what a sign-in has just bound to the session; otherwise the one kept here, or a new one. */
export async function openHouse(account: Account, device?: string): Promise<void> {
  const open = get(openStore);
  if (open?.account.id === account.id && open.isOpen()) return device ? keepDevice(open, device) : undefined;
  open?.close();
  const db = new House(account);
  listen(db);
  await db.open();
  await keepDevice(db, device);
  rememberAccount(account);
  openStore.set(db);
  void makeRoom(db);
}

/** Lay the reserve by again when there is room for it; only then are photos taken. */
export async function makeRoom(db: House = currentHouse()): Promise<void> {
  noMorePhotos.set(!(await growBallast(db)));
}

/** Forget who the phone belongs to. The database stays: what has not been sent is not thrown away. */
export function leaveHouse(): void {
  get(openStore)?.close();
  openStore.set(null);
  sessionStore.set({ account: null });
  remember(ACCOUNT, null);
}

/** Accounts that have signed in on this phone, newest last: their databases hold their device ids. */
export function knownAccounts(): Account[] {
  return recall<Account[]>("accounts") ?? [];
}

export function currentHouse(): House {
  const db = get(openStore);
  if (!db) throw new SaveFailed("broken", new Error("no account is open"));
  return db;
}

/**
 * One read-write transaction. Resolves after the commit, never before.
 * In `work`, await nothing that does not touch the database: the transaction would commit before its time.
 */
export async function inHouse<T>(tables: TableName[], work: (db: House) => Promise<T>): Promise<T> {
  const db = currentHouse();
  const attempt = () => db.transaction("rw", tables, () => work(db));
  try {
    return saved(await attempt());
  } catch (error) {
    return isFull(error) ? afterFreeing(db, attempt, error) : afterReopening(db, attempt, error);
  }
}

export function isFull(error: unknown): boolean {
  const { name, inner } = error as { name?: string; inner?: { name?: string } };
  return name === "QuotaExceededError" || inner?.name === "QuotaExceededError";
}

async function afterFreeing<T>(db: House, attempt: () => PromiseLike<T>, first: unknown): Promise<T> {
  noMorePhotos.set(true);
  try {
    await freeBallast(db);
    return saved(await attempt());
  } catch {
    throw failed("full", first);
  }
}

async function afterReopening<T>(db: House, attempt: () => PromiseLike<T>, first: unknown): Promise<T> {
  try {
    // WebKit drops the connection of a page that slept; every retry on the old handle fails, a new one works.
    db.close({ disableAutoOpen: false });
    await db.open();
    return saved(await attempt());
  } catch (error) {
    throw isFull(error) ? failed("full", error) : failed("broken", first);
  }
}

function saved<T>(value: T): T {
  notSaved.set(false);
  return value;
}

function failed(reason: "full" | "broken", cause: unknown): SaveFailed {
  notSaved.set(true);
  return new SaveFailed(reason, cause);
}

function listen(db: House): void {
  db.on("versionchange", () => {
    db.close();
    troubleStore.set("other_version");
    return false;
  });
  db.on("blocked", () => troubleStore.set("blocked"));
  db.on("ready", () => troubleStore.set(null));
}

async function keepDevice(db: House, device?: string): Promise<void> {
  await db.transaction("rw", db.meta, async () => {
    const kept = (await db.meta.get("device"))?.v;
    await db.meta.put({ k: "device", v: device ?? kept ?? uuidv7() });
  });
}

function rememberAccount(account: Account): void {
  const others = knownAccounts().filter((known) => known.id !== account.id);
  remember("accounts", [...others, account]);
  remember(ACCOUNT, account);
  sessionStore.set({ account });
}
