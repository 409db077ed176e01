import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { get } from "svelte/store";
import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, OWNER, problem, RATER } from "../cast/garden_server";
import { BED, first, holdSession, openTab, type Tab, until } from "../cast/phone";

let server: GardenServer;
let garden: string;
let grower: Tab;

beforeEach(async () => {
  localStorage.clear();
  Dexie.dependencies.indexedDB = new IDBFactory();
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  grower = await openTab();
  await sync(grower);
  garden = await grower.create("", "garden", { name: "Hill" });
  await grower.create(garden, "bed", BED);
  await sync(grower);
});

async function sync(tab: Tab): Promise<void> {
  await (await holdSession(server, tab)).sync.syncRound();
}

/** A phone of somebody else, to whom the garden is open as `state` says. */
async function helper(state: "live" | "ended" | "closed" = "live"): Promise<Tab> {
  server.guests.set(garden, { role: "rater", rights: RATER, state });
  const tab = await openTab();
  await sync(tab);
  return tab;
}

function asGrower(): Promise<void> {
  server.guests.delete(garden);
  return sync(grower);
}

const rate = (tab: Tab) => tab.create(garden, "gall_rating", { root_check: "c", note: "seen" });

test("what one may do in a garden is known with no signal, after a restart of the app", async () => {
  const tab = await helper();
  vi.stubGlobal("fetch", () => Promise.reject(new TypeError("no line")));
  const again = await openTab(tab.account);
  const { may } = await import("../../src/db/rights");
  again.read.currentGarden.set(garden);
  const known = await until(may, (now) => now?.standing !== null);
  expect(known!.make("gall_rating")).toBe(true);
  expect(known!.make("bed")).toBe(false);
  expect(known!.change({ kind: "gall_rating", by: tab.account.username })).toBe(true);
  expect(known!.change({ kind: "gall_rating", by: "somebody else" })).toBe(false);
  expect([known!.settle, known!.links]).toEqual([false, false]);
});

test("in a garden made on this phone everything is allowed before the server ever heard of it", async () => {
  const { mayIn } = await import("../../src/db/rights");
  expect(mayIn(null, "me").make("bed")).toBe(true);
});

test("what was rated before the link ended is handed in late and waits for the grower's word", async () => {
  const tab = await helper();
  const rating = await rate(tab);
  server.guests.get(garden)!.state = "ended";
  server.requests.length = 0;
  await sync(tab);
  expect(server.requests.filter((one) => one.includes("/pull"))).toEqual([]);
  expect((await tab.db().outbox.toArray()).map((row) => row.st)).toEqual(["held"]);
  expect(await first(tab.outbox.withGrower)).toMatchObject([{ id: rating, kind: "gall_rating" }]);
  expect(await first(tab.outbox.counts)).toMatchObject({ waiting: 0, parked: 0 });
  expect(get(tab.sync.line).state).toBe("reached");
  expect(await first(tab.read.one(garden, "gall_rating", rating))).toMatchObject({ unsent: false, doc: { note: "seen" } });
});

test("an answer lost on the way makes no second late change", async () => {
  const tab = await helper();
  await rate(tab);
  server.guests.get(garden)!.state = "ended";
  server.loseAnswer = true;
  await expect(sync(tab)).rejects.toThrow();
  await sync(tab);
  expect((await tab.db().outbox.toArray()).map((row) => row.st)).toEqual(["held"]);
  expect([...server.gardens.get(garden)!.rows.values()].filter(({ kind }) => kind === "held")).toHaveLength(1);
});

test("the grower is told of a late change and settles it with no signal", async () => {
  const tab = await helper();
  await rate(tab);
  server.guests.get(garden)!.state = "ended";
  await sync(tab);
  await asGrower();
  expect(await first(grower.outbox.counts)).toMatchObject({ toSettle: 1 });
  const [held] = await first(grower.read.all(garden, "held"));
  expect(held!.doc).toMatchObject({ by: tab.account.username, set: { note: "seen" }, state: "waiting" });
  await grower.settleHeld(garden, held!.id, "accepted");
  expect(await first(grower.outbox.counts)).toMatchObject({ toSettle: 0, waiting: 1 });
  await asGrower();
  expect(server.gardens.get(garden)!.rows.get(held!.id)!.doc["state"]).toBe("accepted");
});

test("who may only rate is not told of what others have to settle", async () => {
  const tab = await helper();
  await rate(tab);
  server.guests.get(garden)!.state = "ended";
  await sync(tab);
  server.guests.get(garden)!.state = "live";
  const other = await helper();
  expect(await first(other.outbox.counts)).toMatchObject({ toSettle: 0 });
});

test("after the last day nothing is sent and nothing is lost, and other gardens go on", async () => {
  const tab = await helper();
  const own = await tab.create("", "garden", { name: "My own" });
  await rate(tab);
  server.guests.get(garden)!.state = "closed";
  await sync(tab);
  expect(server.gardens.has(own)).toBe(true);
  expect((await tab.db().outbox.toArray()).map((row) => row.st)).toEqual(["new"]);
  const { endedGardens } = await import("../../src/db/ended");
  expect(await first(endedGardens)).toMatchObject([{ id: garden, push_until: null, waiting: 1, held: true }]);
  expect(JSON.parse(await (await tab.outbox.saveAllToFile()).text()).changes).toHaveLength(1);
});

test("a refusal in the middle of a round ends no sign-in", async () => {
  const tab = await helper();
  await rate(tab);
  server.fault = (_method, path) => (path.endsWith("/push") ? problem(403, "share_ended") : null);
  await sync(tab);
  expect(get(tab.sync.line).state).toBe("reached");
  expect(await tab.db().outbox.count()).toBe(1);
});

test("taking an ended garden off the phone leaves what has not been sent", async () => {
  const tab = await helper();
  const sent = await rate(tab);
  server.guests.get(garden)!.state = "ended";
  await sync(tab);
  const unsent = await rate(tab);
  const { takeAway } = await import("../../src/db/ended");
  await takeAway(garden);
  expect(await tab.db().records.count()).toBe(0);
  expect((await tab.db().outbox.toArray()).map((row) => row.id)).toEqual([unsent]);
  expect(unsent).not.toBe(sent);
});

test("a garden opened again shows what was accepted, and nothing waits with the grower any more", async () => {
  const tab = await helper();
  await rate(tab);
  server.guests.get(garden)!.state = "ended";
  await sync(tab);
  server.guests.get(garden)!.state = "live";
  await sync(tab);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("a helper's phone gives a restored server back only what its person made", async () => {
  const kept = server.backup();
  const tab = await helper();
  const mine = await rate(tab);
  await sync(tab);
  await asGrower();
  await grower.create(garden, "bed", { ...BED, name: "New bed" });
  await sync(grower);
  server.guests.set(garden, { role: "rater", rights: RATER });
  await sync(tab);
  await tab.db().sent.clear();
  server.gardens = kept;
  await sync(tab);
  expect(server.gardens.get(garden)!.rows.has(mine)).toBe(true);
  expect(await first(tab.outbox.counts)).toMatchObject({ parked: 0 });
});

test("a garden lent under another role is read anew: what the old role was not shown comes", async () => {
  const tab = await helper();
  const bed = (await first(tab.read.all(garden, "bed")))[0]!.id;
  await tab.db().records.delete(bed); // as if the server had kept it from a rater
  await sync(tab);
  expect(await first(tab.read.all(garden, "bed"))).toEqual([]);
  server.guests.set(garden, { role: "editor", rights: { ...OWNER, links: false } });
  await sync(tab);
  expect((await first(tab.read.all(garden, "bed"))).map(({ id }) => id)).toEqual([bed]);
});
