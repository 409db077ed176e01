/** Opens the account's database and runs every transaction, so a dead handle or a full disk is met in one place. */
import { type Readable, get, writable } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { freeBallast, growBallast } from "./ballast";
import { type Account, holder, noteHolder, noteLeaving } from "./keyring";
import { recall, remember } from "./pocket";
import { House } from "./schema";

export type { Account } from "./keyring";
export type TableName =
  | "records" | "shadow" | "outbox" | "sent" | "blobs" | "bytes" | "meta" | "drafts" | "ballast";

/** The change is not on the phone. `full`: no room even after the reserve was freed. `broken`: the database refused twice. */
export class SaveFailed extends Error {
  constructor(readonly reason: "full" | "broken", cause?: unknown) {
    super(`not saved: ${reason}`, { cause });
    this.name = "SaveFailed";
  }
}

const OVERDUE_MS = 5_000;
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

/** True while a person's last save failed; the next good one clears it. What runs by itself never touches it. */
export const notSaved = writable(false);
/** True once the disk was full: ratings still fit, photos no longer taken. */
export const noMorePhotos = writable(false);

/** At start: a browser that was killed may have lost the quick memory that `session` begins with. */
export async function recallHolder(): Promise<void> {
  const kept = await holder().catch(() => undefined);
  if (kept !== undefined && kept?.id !== get(sessionStore).account?.id) hold(kept);
}

/** `device`: for an account that is new here, what its sign-in has just bound to the session. */
export async function openHouse(account: Account, device?: string): Promise<void> {
  const open = get(openStore);
  if (open?.account.id === account.id && open.isOpen()) return note(noteHolder(account));
  open?.close();
  const db = new House(account);
  listen(db);
  await db.open();
  await keepDevice(db, device);
  await note(noteHolder(account));
  openStore.set(db);
  hold(account);
  void makeRoom(db);
}

/** Lay the reserve by again when there is room for it; only then are photos taken. */
export async function makeRoom(db: House = currentHouse()): Promise<void> {
  noMorePhotos.set(!(await growBallast(db)));
}

/** Forget who the phone belongs to. The database stays: what has not been sent is not thrown away. */
export async function leaveHouse(): Promise<void> {
  get(openStore)?.close();
  openStore.set(null);
  hold(null);
  await note(noteLeaving());
}

export function currentHouse(): House {
  const db = get(openStore);
  if (!db) throw new SaveFailed("broken", new Error("no account is open"));
  return db;
}

/**
 * What a person saves. When it fails, every screen says so until a save succeeds. A disk that others have filled to the last
 * byte makes browsers answer nothing at all: what is overdue counts as not saved until it is.
 */
export async function saveInHouse<T>(tables: TableName[], work: (db: House) => Promise<T>): Promise<T> {
  const overdue = setTimeout(() => notSaved.set(true), OVERDUE_MS);
  try {
    const value = await inHouse(tables, work);
    notSaved.set(false);
    return value;
  } catch (error) {
    notSaved.set(true);
    throw error;
  } finally {
    clearTimeout(overdue);
  }
}

/**
 * One read-write transaction. Resolves after the commit, never before. `db`: the house the caller began in; what it has
 * fetched meanwhile for one account is never written once another's is open.
 * In `work`, await nothing that does not touch the database: the transaction would commit before its time.
 */
export async function inHouse<T>(tables: TableName[], work: (db: House) => Promise<T>, db: House = currentHouse()): Promise<T> {
  stayIn(db);
  const attempt = () => db.transaction("rw", tables, () => work(db));
  try {
    return await attempt();
  } catch (error) {
    stayIn(db);
    return isFull(error) ? afterFreeing(db, attempt, error) : afterReopening(db, attempt, error);
  }
}

export function stayIn(db: House): void {
  if (get(openStore) !== db) throw new SaveFailed("broken", new Error("this account is no longer open"));
}

export function isFull(error: unknown): boolean {
  const { name, inner } = error as { name?: string; inner?: { name?: string } };
  return name === "QuotaExceededError" || inner?.name === "QuotaExceededError";
}

async function afterFreeing<T>(db: House, attempt: () => PromiseLike<T>, first: unknown): Promise<T> {
  noMorePhotos.set(true);
  try {
    await freeBallast(db);
    return await attempt();
  } catch {
    throw new SaveFailed("full", first);
  }
}

async function afterReopening<T>(db: House, attempt: () => PromiseLike<T>, first: unknown): Promise<T> {
  try {
    // WebKit drops the connection of a page that slept; every retry on the old handle fails, a new one works.
    db.close({ disableAutoOpen: false });
    await db.open();
    return await attempt();
  } catch (error) {
    throw isFull(error) ? new SaveFailed("full", error) : new SaveFailed("broken", first);
  }
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
    if (!kept) await db.meta.put({ k: "device", v: device ?? uuidv7() });
  });
}

/** Without room for it, an account is remembered a little less surely; nobody is kept out for that. */
async function note(writing: Promise<void>): Promise<void> {
  await writing.catch(() => undefined);
}

function hold(account: Account | null): void {
  remember(ACCOUNT, account);
  sessionStore.set({ account });
}
