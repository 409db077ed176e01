/** Two or three growers' phones with one garden on the real server: steps of work, faults, and what must hold at the end. */
import fc from "fast-check";
import { expect } from "vitest";
import { LINE_FAULTS, type Counts } from "./bad_line";
import { GrowersPhone, type Plan } from "./growers_phone";
import { first, type Tab } from "./phone";
import type { RealServer } from "./real_server";

const FIELDS = ["name", "soil", "note"] as const;
const SHAPE = { type: "rectangle", width_cm: 100, length_cm: 100 } as const;
const ROUNDS_UNTIL_QUIET = 12;

export interface Step {
  who: number;
  act: "bed" | "edit" | "remove" | "close" | "sync" | "late" | "copy" | "restore";
  pick: number;
  plan: Plan | null;
}

const plan = fc.option(fc.record({ at: fc.integer({ min: 1, max: 5 }), fault: fc.constantFrom(...LINE_FAULTS) }), { freq: 2 });
const act = (...weighted: [Step["act"], number][]) =>
  fc.oneof(...weighted.map(([value, weight]) => ({ arbitrary: fc.constant(value), weight })));
const step = (acts: fc.Arbitrary<Step["act"]>) => fc.record({ who: fc.nat(2), act: acts, pick: fc.nat(1_000), plan });
const WORK: [Step["act"], number][] = [["bed", 3], ["edit", 8], ["remove", 1], ["close", 1], ["sync", 8], ["late", 1]];
export const steps = (most: number) => fc.array(step(act(...WORK)), { minLength: most / 2, maxLength: most });

/** One copy is taken and put back among the steps: each costs two starts of the server. */
export const stepsWithRestore = (most: number) =>
  fc.tuple(steps(most), steps(most), steps(most)).map(([before, lost, after]) => [...before, now("copy"), ...lost, now("restore"), ...after]);
const now = (what: Step["act"]): Step => ({ who: 0, act: what, pick: 0, plan: null });

interface Entry {
  mid: string;
  record: string;
  body: string;
  prev: string;
}

export class PlantingYear {
  private typed: { value: string; place: string }[] = [];
  private copy = "";
  private restored = false;
  private constructor(
    private server: RealServer,
    private garden: string,
    private phones: GrowersPhone[],
    private counts: Counts,
  ) {}

  static async begin(server: RealServer, username: string, n: number, counts: Counts): Promise<PlantingYear> {
    const one = await GrowersPhone.signedIn(server, username, counts);
    const garden = await one.tab.create("", "garden", { name: "Long Acre" });
    await one.sync();
    const phones = [one]; // one after the other: which disk a phone opens is a global of Dexie's
    while (phones.length < n) phones.push(await GrowersPhone.signedIn(server, username, counts));
    return new PlantingYear(server, garden, phones, counts);
  }

  async run(all: Step[]): Promise<void> {
    for (const [at, one] of all.entries()) await this.step(one, `value ${at}.`);
    for (const { line } of this.phones) for (let left = 9; left > 0; left -= 1) await line.deliver(() => 0);
    await this.settle();
    await this.check();
  }

  private async step({ who, act: what, pick, plan: fault }: Step, value: string): Promise<void> {
    const phone = this.phones[who % this.phones.length]!;
    if (what === "sync") return this.sync(phone, fault);
    if (what === "late") return phone.line.deliver((n) => pick % n);
    if (what === "copy") return void (this.copy = await this.server.backup());
    if (what === "restore") return this.restore();
    this.counts["changes"] = (this.counts["changes"] ?? 0) + 1;
    await this.change(phone.tab, who % this.phones.length, what, pick, value);
  }

  private async restore(): Promise<void> {
    await this.server.restore(this.copy);
    this.restored = true;
    this.counts["restores"] = (this.counts["restores"] ?? 0) + 1;
  }

  private async change(tab: Tab, who: number, what: Step["act"], pick: number, value: string): Promise<void> {
    if (what === "bed") {
      const bed = await tab.create(this.garden, "bed", { name: value, shape: SHAPE });
      return void this.typed.push({ value, place: `${who} ${bed} name` });
    }
    const here = await first(tab.read.all(this.garden, what === "close" ? "conflict" : "bed"));
    const target = here[pick % Math.max(1, here.length)];
    if (!target) return;
    if (what === "remove") return tab.remove(this.garden, "bed", target.id);
    if (what === "close") return tab.closeConflict(this.garden, target.id, "kept");
    const field = FIELDS[pick % FIELDS.length]!;
    await tab.change(this.garden, "bed", target.id, { [field]: value });
    this.typed.push({ value, place: `${who} ${target.id} ${field}` });
  }

  /** An acknowledgement alone changes nothing on the screen: what a phone typed last stays until others' work is read. */
  private async sync(phone: GrowersPhone, fault: Plan | null): Promise<void> {
    const before = await this.shown(phone.tab);
    const { cursor } = await this.progress(phone.tab);
    const whole = await phone.sync(fault);
    const after = await this.progress(phone.tab);
    // A garden that was read anew from an older copy shows what that copy has, under whatever number.
    if (this.restored) return;
    if (!whole && after.cursor === cursor) expect(await this.shown(phone.tab)).toEqual(before);
    expect(after.cursor).toBeGreaterThanOrEqual(cursor);
  }

  private progress(tab: Tab) {
    return tab.feed.progressOf(tab.db(), this.garden);
  }

  private async shown(tab: Tab) {
    const beds = await first(tab.read.all(this.garden, "bed"));
    return Object.fromEntries(beds.map(({ id, doc }) => [id, FIELDS.map((field) => doc[field])]));
  }

  private async settle(): Promise<void> {
    for (let round = 0; round < ROUNDS_UNTIL_QUIET; round += 1) {
      for (const phone of this.phones) await phone.sync();
      const waiting = await Promise.all(this.phones.map(({ tab }) => tab.db().outbox.where("st").equals("new").count()));
      if (round > 1 && waiting.every((n) => n === 0)) return;
    }
    throw new Error("never quiet");
  }

  private async check(): Promise<void> {
    const feed = await this.phones[0]!.get<{ records: { id: string; seq: number; deleted: boolean; doc: object }[]; more: boolean }>(`/gardens/${this.garden}/pull?cursor=0&limit=500`);
    expect(feed.more).toBe(false);
    const stored = feed.records.map(({ id, seq, deleted, doc }) => ({ id, seq, deleted, doc })).sort(byId);
    for (const { tab } of this.phones) {
      const held = await tab.db().records.where("garden").equals(this.garden).filter(({ seq }) => seq > 0).toArray();
      expect(held.map(({ id, seq, deleted, doc }) => ({ id, seq, deleted, doc })).sort(byId)).toEqual(stored);
      expect(await tab.db().outbox.count()).toBe(0);
    }
    this.checkJournal(stored as never);
  }

  private checkJournal(stored: { id: string; doc: Record<string, unknown> }[]): void {
    const columns = "mid, record, body, prev";
    const garden = this.garden.replaceAll("-", "");
    const rows = this.server.ask<[string, string, string, string]>(`SELECT ${columns} FROM gardens_journalentry WHERE garden_id = ? ORDER BY seq`, garden);
    const entries: Entry[] = rows.map(([mid, record, body, prev]) => ({ mid, record, body, prev }));
    expect(new Set(entries.map(({ mid }) => mid)).size).toBe(entries.length);
    expect(lost(this.typed, JSON.stringify(entries.map(({ body }) => body)))).toEqual([]);
    const kept = JSON.stringify([stored.map(({ doc }) => doc), entries.map(({ prev }) => prev)]);
    const gone = entries.flatMap(({ body }) => body.match(/value \d+\./g) ?? []).filter((value) => !kept.includes(value));
    expect(this.counts["restores"] ? [] : gone.filter((value) => !this.onRemoved(stored, entries, value))).toEqual([]);
  }

  /** What stood in a bed that was removed travels no more, and stands in the database. */
  private onRemoved(stored: { id: string; doc: object }[], entries: Entry[], value: string): boolean {
    const records = entries.filter(({ body }) => body.includes(value)).map(({ record }) => record);
    return stored.some(({ id, doc }) => Object.keys(doc).length === 0 && records.includes(id.replaceAll("-", "")));
  }
}

function byId(a: { id: string }, b: { id: string }): number {
  return a.id < b.id ? -1 : 1;
}

/** Neither in the server's journal nor typed over on the same phone before it was sent. */
function lost(typed: { value: string; place: string }[], journal: string) {
  const typedOver = (one: { place: string }, at: number) => typed.slice(at + 1).some((later) => later.place === one.place);
  return typed.filter((one, at) => !journal.includes(`${one.value}`) && !typedOver(one, at));
}
