import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { BED, first, holdSession, newAccount, openTab, type Tab, until } from "../cast/phone";

let server: GardenServer;

beforeEach(() => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
});

async function phone(): Promise<Tab> {
  return holdSession(server, await openTab());
}

async function sync(tab: Tab): Promise<void> {
  await (await holdSession(server, tab)).sync.syncRound();
}

/** A second phone of the same account: the same account id, so its database is set apart by hand. */
async function secondPhone(one: Tab): Promise<Tab> {
  const other = await openTab({ ...one.account, id: `${one.account.id}-second` });
  return other;
}

async function gardenWithBed(tab: Tab): Promise<{ garden: string; bed: string }> {
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  return { garden, bed: await tab.create(garden, "bed", BED) };
}

test("a garden made offline reaches the server and the outbox is empty afterwards", async () => {
  const tab = await phone();
  const { garden, bed } = await gardenWithBed(tab);
  await tab.sync.syncRound();
  expect([...server.gardens.get(garden)!.rows.keys()]).toEqual([garden, bed]);
  expect(await tab.db().outbox.count()).toBe(0);
  expect(await tab.db().sent.count()).toBe(2);
  expect(await first(tab.read.one(garden, "bed", bed))).toMatchObject({ seq: 2, unsent: false, doc: { name: "By the wall" } });
});

test("what is shown never changes between the acknowledgement and the pull that brings it back", async () => {
  const tab = await phone();
  const { garden, bed } = await gardenWithBed(tab);
  await tab.sync.syncRound();
  const seen = new Set<string>();
  const stop = tab.read.one(garden, "bed", bed).subscribe((row) => row && seen.add(row.doc.name));
  await until(tab.read.one(garden, "bed", bed), (row) => row !== null);
  await tab.change(garden, "bed", bed, { name: "By the gate" });
  server.fault = (_method, path) => (path.endsWith("/pull") ? problem(500, "") : null);
  await expect(tab.sync.syncRound()).rejects.toThrow();
  expect((await tab.db().outbox.toArray()).map((row) => row.st)).toEqual(["ack"]);
  await until(tab.read.one(garden, "bed", bed), (row) => row?.unsent === false);
  server.fault = () => null;
  await tab.sync.syncRound();
  await until(tab.read.one(garden, "bed", bed), (row) => row!.seq === 3);
  stop();
  expect([...seen]).toEqual(["By the wall", "By the gate"]);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("an answer lost on the way makes no double: the same items go again under the same ids", async () => {
  const tab = await phone();
  const { garden } = await gardenWithBed(tab);
  server.loseAnswer = true;
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ status: 0 });
  await tab.sync.syncRound();
  expect(server.pushed[0]!.map((m) => m.mid)).toEqual(server.pushed[1]!.map((m) => m.mid));
  expect(server.gardens.get(garden)!.journal).toHaveLength(2);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("a refused item is parked and shown, the others go on; corrected, it goes too", async () => {
  const tab = await phone();
  const { garden, bed } = await gardenWithBed(tab);
  server.reject = (m) => (m.set?.["name"] === "By the wall" ? { code: "bad_value", field: "name" } : null);
  await tab.create(garden, "lab_profile", { name: "Our lab" });
  await tab.sync.syncRound();
  const { items } = await first(tab.outbox.parked);
  expect(items).toMatchObject([{ id: bed, code: "bad_value", field: "name", parked: true }]);
  expect(await first(tab.read.one(garden, "bed", bed))).toMatchObject({ parked: true, doc: { name: "By the wall" } });
  await tab.outbox.editParked(items[0]!.n, { name: "By the gate" });
  await tab.sync.syncRound();
  expect(server.gardens.get(garden)!.rows.get(bed)!.doc["name"]).toBe("By the gate");
  expect(await tab.db().outbox.count()).toBe(0);
});

test("changes to a record whose first save is parked wait with it", async () => {
  const tab = await phone();
  const { garden, bed } = await gardenWithBed(tab);
  server.reject = (m) => (m.id === bed ? { code: "bad_value" } : null);
  await tab.sync.syncRound();
  await tab.change(garden, "bed", bed, { soil: "loam" });
  await tab.sync.syncRound();
  expect((await tab.db().outbox.toArray()).map((row) => row.st)).toEqual(["parked", "new"]);
  server.reject = () => null;
  await tab.outbox.resendParked((await first(tab.outbox.parked)).items[0]!.n);
  await tab.sync.syncRound();
  expect(server.gardens.get(garden)!.rows.get(bed)!.doc).toMatchObject({ ...BED, soil: "loam" });
});

test("two phones that change one field make a conflict that is shown and can be closed", async () => {
  const one = await phone();
  const { garden, bed } = await gardenWithBed(one);
  await one.sync.syncRound();
  const two = await secondPhone(one);
  await sync(two);
  await one.change(garden, "bed", bed, { name: "From the first" });
  await two.change(garden, "bed", bed, { name: "From the second", soil: "sand" });
  await sync(one);
  await sync(two);
  expect(await first(two.read.one(garden, "bed", bed))).toMatchObject({ doc: { name: "From the first", soil: "sand" }, unsent: false });
  const [conflict] = await first(two.read.all(garden, "conflict"));
  expect(conflict!.doc).toMatchObject({ field: "name", kept: "From the first", other: "From the second", state: "open" });
  expect(await until(two.sync.status, (s) => s.kind === "needsyou")).toMatchObject({ n: 1 });
  await two.closeConflict(garden, conflict!.id, "taken");
  await sync(two);
  await sync(one);
  expect(await first(one.read.one(garden, "bed", bed))).toMatchObject({ doc: { name: "From the second" } });
  expect((await first(one.read.all(garden, "conflict")))[0]!.doc.state).toBe("taken");
});

test("five hundred waiting items go in batches of two hundred", async () => {
  const tab = await phone();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  await tab.save(Array.from({ length: 499 }, (_, at) => ({ op: "put" as const, garden, kind: "lab_profile" as const, id: tab.newId(), set: { name: `Lab ${at}` } })));
  await tab.sync.syncRound();
  expect(server.pushed.map((batch) => batch.length)).toEqual([200, 200, 100]);
  expect(await tab.db().outbox.count()).toBe(0);
  expect(await tab.db().records.count()).toBe(500);
});

test("one change sent and another saved: as many wait as before, and the newest of them is another", async () => {
  const tab = await phone();
  const { garden } = await gardenWithBed(tab);
  const before = await first(tab.outbox.counts);
  await tab.sync.syncRound();
  expect(await first(tab.outbox.counts)).toMatchObject({ waiting: 0, newest: 0 });
  for (const name of ["One", "Two"]) await tab.save([{ op: "put", garden, kind: "lab_profile", id: tab.newId(), set: { name } }]);
  const after = await first(tab.outbox.counts);
  expect(after.waiting).toBe(before.waiting);
  expect(after.newest).toBeGreaterThan(before.newest);
});

test("a sign-in that lapsed pauses: nothing is deleted, no attempt is charged, the items arrive later", async () => {
  const tab = await phone();
  const { garden } = await gardenWithBed(tab);
  server.signedIn = false;
  const stop = tab.sync.startSync();
  await until(tab.sync.status, (s) => s.kind === "signin");
  expect(await tab.db().outbox.count()).toBe(2);
  await tab.sync.signIn(tab.account.username, "a long pass phrase");
  await until(tab.sync.status, (s) => s.kind === "allsent");
  stop();
  expect(server.gardens.get(garden)!.rows.size).toBe(2);
});

test("a stale CSRF token is fetched anew once and the item goes", async () => {
  const tab = await phone();
  const { garden } = await gardenWithBed(tab);
  let pushes = 0;
  server.fault = (_method, path) => {
    if (path.endsWith("/push") && (pushes += 1) === 1) server.csrf = "token-2";
    return null;
  };
  await tab.sync.syncRound();
  expect(pushes).toBe(2);
  expect(server.gardens.get(garden)!.rows.size).toBe(2);
});

test("under another account's sign-in nothing leaves the phone and nothing comes in", async () => {
  const ana = await phone();
  await gardenWithBed(ana);
  server.account = newAccount();
  await expect(ana.sync.syncRound()).rejects.toMatchObject({ status: 401 });
  server.account = ana.account;
  server.device = "another phone's";
  await expect(ana.sync.syncRound()).rejects.toMatchObject({ status: 401 });
  expect(server.pushed).toEqual([]);
  expect(await ana.db().outbox.count()).toBe(2);
});

test("signing in again uses the phone's own device id; signing out leaves what waits on the phone", async () => {
  const tab = await phone();
  await gardenWithBed(tab);
  const device = await tab.device();
  expect(await tab.sync.leftOnPhone()).toEqual({ items: 2, photos: 0 });
  await tab.sync.signOut();
  expect(await first(tab.house.session)).toEqual({ account: null });
  server.device = "";
  await tab.sync.signIn(tab.account.username, "a long pass phrase");
  expect(server.device).toBe(device);
  await until(tab.outbox.counts, (counts) => counts.waiting === 0);
});
