import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { first, holdSession, newAccount, openTab, type Tab } from "../cast/phone";

vi.setConfig({ testTimeout: 60_000 });
const SEEDS = Array.from({ length: 30 }, (_, at) => at + 1);
const STEPS = 60;
const ID = "0199f000-0000-7000-8000-00000000feed";

/** Numbers that look like chance and come again with the seed (a 32-bit multiply-and-shift generator). */
function chance(seed: number) {
  let state = seed;
  return (n: number) => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) | 0;
    return ((state ^ (state >>> 13)) >>> 0) % n;
  };
}

async function phone(server: GardenServer): Promise<Tab> {
  Dexie.dependencies.indexedDB = new IDBFactory();
  return holdSession(server, await openTab(newAccount()));
}

/** One round of one phone over a line that may lose the request, the answer, or get a 500. */
async function sync(server: GardenServer, tab: Tab, fault: number): Promise<void> {
  await holdSession(server, tab);
  let at = 0;
  server.fault = () => {
    at += 1;
    if (fault === 1 && at === 3) throw new TypeError("the request is lost");
    if (fault === 2 && at === 2) server.loseAnswer = true;
    return fault === 3 && at === 3 ? problem(503, "slow_down") : null;
  };
  await tab.sync.syncRound().catch(() => undefined);
  server.fault = () => null;
  server.loseAnswer = false;
}

const FIELDS = ["name", "soil", "note"] as const;
const SHAPE = { type: "rectangle", width_cm: 100, length_cm: 100 } as const;

/** What was typed, where, on which phone, in the order of typing. */
interface Typed {
  value: string;
  place: string;
}

interface Place {
  id: string;
  field: (typeof FIELDS)[number];
}

class Season {
  readonly typed: Typed[] = [];
  readonly beds: string[] = [];
  private backup: GardenServer["gardens"];

  constructor(
    private server: GardenServer,
    readonly phones: Tab[],
    private pick: (n: number) => number,
  ) {
    this.backup = server.backup();
  }

  async step(at: number): Promise<void> {
    const who = this.pick(this.phones.length);
    const tab = this.phones[who]!;
    const act = this.pick(20);
    if (act < 4) await this.addBed(tab, who, `value ${at}.`);
    else if (act < 11) await this.changeBed(tab, who, `value ${at}.`);
    else if (act < 17) await sync(this.server, tab, this.pick(4));
    else if (act < 18) this.backup = this.server.backup();
    else if (act < 19) await this.overtake(who, `value ${at}`);
    else this.server.gardens = this.pick(4) === 0 ? new Map() : structuredClone(this.backup);
  }

  /** The server is put back while one phone has an edit it has not sent, and the other writes the same field first. */
  private async overtake(who: number, value: string): Promise<void> {
    const [mine, other] = [this.phones[who]!, this.phones[1 - who]!];
    const place = await this.changeBed(mine, who, `${value} unsent.`);
    this.server.gardens = structuredClone(this.backup);
    if (!place || !(await first(other.read.one(ID, "bed", place.id)))) return;
    await this.type(other, 1 - who, place, `${value} overtaking.`);
    await sync(this.server, other, 0);
    await sync(this.server, mine, 0);
    const { rows } = this.server.gardens.get(ID)!;
    const conflicts = [...rows.values()].filter((row) => row.kind === "conflict").map((row) => row.doc["other"]);
    const seen = [rows.get(place.id)!.doc[place.field], ...conflicts];
    expect(seen).toEqual(expect.arrayContaining([`${value} unsent.`, `${value} overtaking.`]));
  }

  private async addBed(tab: Tab, who: number, value: string): Promise<void> {
    const bed = await tab.create(ID, "bed", { name: value, shape: SHAPE });
    this.beds.push(bed);
    this.typed.push({ value, place: `${who} ${bed} name` });
  }

  private async changeBed(tab: Tab, who: number, value: string): Promise<Place | null> {
    const here = await first(tab.read.all(ID, "bed"));
    if (here.length === 0) return null;
    const place = { id: here[this.pick(here.length)]!.id, field: FIELDS[this.pick(FIELDS.length)]! };
    await this.type(tab, who, place, value);
    return place;
  }

  private async type(tab: Tab, who: number, { id, field }: Place, value: string): Promise<void> {
    await tab.change(ID, "bed", id, { [field]: value });
    this.typed.push({ value, place: `${who} ${id} ${field}` });
    expect((await first(tab.read.one(ID, "bed", id)))!.doc[field]).toBe(value);
  }
}

async function bedsOf(tab: Tab) {
  const beds = await first(tab.read.all(ID, "bed"));
  return Object.fromEntries(beds.map(({ id, doc }) => [id, FIELDS.map((field) => doc[field])]));
}

/** Neither in the server's journal nor typed over on the same phone before it was sent. */
function lost(typed: Typed[], journal: string): Typed[] {
  const typedOver = (one: Typed, at: number) => typed.slice(at + 1).some((later) => later.place === one.place);
  return typed.filter((one, at) => !journal.includes(`"${one.value}"`) && !typedOver(one, at));
}

test.each(SEEDS)("two phones over a bad line to a server that is put back agree at the end, and nothing typed is lost (seed %i)", async (seed) => {
  const server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  const phones = [await phone(server), await phone(server)];
  await phones[0]!.create("", "garden", { name: "Long Acre" }, ID);
  for (const tab of phones) await sync(server, tab, 0);
  const season = new Season(server, phones, chance(seed));
  for (let at = 0; at < STEPS; at += 1) await season.step(at);
  for (let round = 0; round < 3; round += 1) for (const tab of phones) await sync(server, tab, 0);

  const { rows, journal } = server.gardens.get(ID)!;
  const stored = season.beds.map((id) => [id, FIELDS.map((field) => rows.get(id)!.doc[field] ?? "")]);
  for (const tab of phones) expect(await bedsOf(tab)).toEqual(Object.fromEntries(stored));
  for (const tab of phones) expect(await tab.db().outbox.count()).toBe(0);
  expect(new Set(journal.map((entry) => entry.mid)).size).toBe(journal.length);
  expect(season.typed.length).toBeGreaterThan(10);
  expect(lost(season.typed, JSON.stringify(journal))).toEqual([]);
});
