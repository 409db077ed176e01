/**
 * What the server said one may do in each garden, kept so that it is known with no signal. Which role may do what is the
 * server's to know: here stand its answers only. A garden it never spoke of was made on this phone, so everything is allowed.
 */
import { derived, type Readable } from "svelte/store";
import { inHouse, session } from "./house";
import type { Kind, Moment } from "./kinds";
import { live } from "./live";
import { currentGarden } from "./read";
import type { House, ServerRow } from "./schema";

export interface Rights {
  make: string[]; // kinds
  change: string[];
  change_own: string[];
  settle: boolean;
  links: boolean;
  export: boolean;
  sheets: string[];
}
export interface Standing {
  id: string;
  name: string;
  role: string;
  /** What others in the garden read of who wrote something here. */
  called: string;
  state: string; // live or ended
  expires_at: Moment | null;
  /** Until then the server still takes what was entered before the link ended. Null once ended: it takes nothing more. */
  push_until: Moment | null;
  rights: Rights;
}

const PREFIX = "standing:";

/** As the server listed them. One it lists no longer keeps what was said of it last; an older server says nothing of rights. */
export async function noteStandings(db: House, listed: Standing[]): Promise<void> {
  await inHouse(["meta"], () => db.meta.bulkPut(listed.filter(({ rights }) => rights).map(entry)), db);
}

/** The server takes nothing of this garden from this phone any more. */
export async function noteClosed(db: House, garden: string): Promise<void> {
  const known = await standingOf(db, garden);
  if (!known || isClosed(known)) return;
  await inHouse(["meta"], () => db.meta.put(entry({ ...known, state: "ended", push_until: null })), db);
}

export async function standingOf(db: House, garden: string): Promise<Standing | undefined> {
  return (await db.meta.get(PREFIX + garden))?.v as Standing | undefined;
}

export async function standings(db: House): Promise<Standing[]> {
  return (await db.meta.where("k").startsWith(PREFIX).toArray()).map(({ v }) => v as Standing);
}

/** True once when a garden is open under another role than it was read under: another role is shown other records. */
export async function isReadOtherwise(db: House, garden: string): Promise<boolean> {
  const [standing, readAs] = await Promise.all([standingOf(db, garden), db.meta.get(readKey(garden))]);
  return standing !== undefined && readAs !== undefined && readAs.v !== standing.role;
}

/** The garden was read, or is about to be read for the first time, under the role it is open under now. */
export async function noteReadAs(db: House, garden: string): Promise<void> {
  const role = (await standingOf(db, garden))?.role;
  if (role !== undefined && (await db.meta.get(readKey(garden)))?.v !== role) await db.meta.put({ k: readKey(garden), v: role });
}

export async function forgetStanding(db: House, garden: string): Promise<void> {
  await db.meta.bulkDelete([PREFIX + garden, readKey(garden)]);
}

export function isClosed({ state, push_until }: Standing): boolean {
  return state === "ended" && push_until === null;
}

/** Whether a record may go back to a server that lost it: what this account may make or change. Undefined: everything. */
export function mayPutBack(standing: Standing | undefined, row: Pick<ServerRow, "kind" | "by">): boolean {
  if (!standing) return true;
  const { make, change } = standing.rights;
  return change.includes(row.kind) || (make.includes(row.kind) && row.by === standing.called);
}

/** What the screens ask in the garden they are in. */
export interface May {
  standing: Standing | null;
  make: (kind: Kind) => boolean;
  change: (record: { kind: Kind; by: string }) => boolean;
  /** Open the form of such a record: some of it may be made or changed. */
  form: (kind: Kind) => boolean;
  mine: (record: { by: string }) => boolean;
  settle: boolean;
  links: boolean;
  sheet: (name: string) => boolean;
}

const here: Readable<{ all: Standing[]; garden: string | null; me: string } | undefined> = derived(
  [live(standings), currentGarden, session],
  ([$all, garden, { account }]) => ($all === undefined ? undefined : { all: $all, garden, me: account?.username ?? "" }),
);

/** Undefined until the phone's database was asked: what is not allowed must not flash up. */
export const may: Readable<May | undefined> = derived(here, ($here) => {
  if (!$here) return undefined;
  return mayIn($here.all.find(({ id }) => id === $here.garden) ?? null, $here.me);
});

export function mayIn(standing: Standing | null, me: string): May {
  // What has not been sent yet stands under the account's own name.
  const mine = ({ by }: { by: string }) => by === me || by === standing?.called;
  if (!standing) return { standing, make: () => true, change: () => true, form: () => true, mine, settle: true, links: true, sheet: () => true };
  const { rights, state } = standing;
  const open = state === "live";
  return {
    standing,
    make: (kind) => open && rights.make.includes(kind),
    change: (record) => open && (rights.change.includes(record.kind) || (rights.change_own.includes(record.kind) && mine(record))),
    form: (kind) => open && (rights.make.includes(kind) || rights.change.includes(kind)),
    mine,
    settle: open && rights.settle,
    links: open && rights.links,
    sheet: (name) => open && rights.sheets.includes(name),
  };
}

function readKey(garden: string): string {
  return `read-as:${garden}`;
}

function entry(standing: Standing) {
  return { k: PREFIX + standing.id, v: standing };
}
