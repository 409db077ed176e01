import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { BED, first, newAccount, openTab, type Tab, until } from "../cast/phone";

let server: GardenServer;

beforeEach(() => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
});

async function phone(account = newAccount()): Promise<Tab> {
  server.account = account;
  return openTab(account);
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
  await two.sync.syncRound();
  await one.change(garden, "bed", bed, { name: "From the first" });
  await two.change(garden, "bed", bed, { name: "From the second", soil: "sand" });
  await one.sync.syncRound();
  await two.sync.syncRound();
  expect(await first(two.read.one(garden, "bed", bed))).toMatchObject({ doc: { name: "From the first", soil: "sand" }, unsent: false });
  const [conflict] = await first(two.read.all(garden, "conflict"));
  expect(conflict!.doc).toMatchObject({ field: "name", kept: "From the first", other: "From the second", state: "open" });
  expect(await until(two.sync.status, (s) => s.kind === "needsyou")).toMatchObject({ n: 1 });
  await two.closeConflict(garden, conflict!.id, "taken");
  await two.sync.syncRound();
  await one.sync.syncRound();
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
  await tab.sync.syncRound();
  server.csrf = "token-2";
  await tab.change(garden, "garden", garden, { note: "later" });
  await tab.sync.syncRound();
  expect(server.requests.filter((request) => request === "GET /me")).toHaveLength(2);
  expect(await tab.db().outbox.count()).toBe(0);
});
