import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { BED, first, holdSession, openTab, type Tab } from "../cast/phone";

let server: GardenServer;
let tab: Tab;
let garden: string;

beforeEach(async () => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  tab = await openTab();
  await holdSession(server, tab);
  garden = await tab.create("", "garden", { name: "Long Acre" });
});

const names = async (of: Tab) => (await first(of.read.all(garden, "bed"))).map((bed) => bed.doc.name).sort();
const stored = () => [...server.gardens.get(garden)!.rows.values()].map((row) => row.doc["name"]);

test("a server restored from an older copy gets back what this phone had sent since", async () => {
  await tab.create(garden, "bed", { ...BED, name: "Before the backup" });
  await tab.sync.syncRound();
  const backup = server.backup();
  await tab.create(garden, "bed", { ...BED, name: "After the backup" });
  await tab.sync.syncRound();
  server.gardens = backup;
  await tab.create(garden, "bed", { ...BED, name: "After the restore" });
  await tab.sync.syncRound();
  expect(stored()).toEqual(["Long Acre", "Before the backup", "After the backup", "After the restore"]);
  expect(await names(tab)).toEqual(["After the backup", "After the restore", "Before the backup"]);
  expect(await tab.db().outbox.count()).toBe(0);
  expect(await tab.db().sent.count()).toBe(4);
});

test("a phone that had acknowledged rows not yet pulled loses none of them to a restore", async () => {
  await tab.sync.syncRound();
  const backup = server.backup();
  await tab.create(garden, "bed", BED);
  server.fault = (_method, path) => (path.endsWith("/pull") ? problem(500, "") : null);
  await expect(tab.sync.syncRound()).rejects.toThrow();
  server.fault = () => null;
  server.gardens = backup;
  await tab.sync.syncRound();
  expect(stored()).toEqual(["Long Acre", "By the wall"]);
  expect(await names(tab)).toEqual(["By the wall"]);
});

test("work another phone lost to the same restore does not come back as an older value over a newer one", async () => {
  await tab.sync.syncRound();
  const other = await openTab({ ...tab.account, id: `${tab.account.id}-second` });
  const sync = async (one: Tab) => (await holdSession(server, one)).sync.syncRound();
  await sync(other);
  const backup = server.backup();
  await tab.change(garden, "garden", garden, { note: "first" });
  await sync(tab);
  await sync(other);
  await other.change(garden, "garden", garden, { note: "second, having seen the first" });
  await sync(other);
  server.gardens = backup;
  await sync(other);
  await sync(tab);
  const values = [server.gardens.get(garden)!.rows.get(garden)!.doc["note"]];
  const conflicts = [...server.gardens.get(garden)!.rows.values()].filter((row) => row.kind === "conflict").map((row) => row.doc["other"]);
  expect([...values, ...conflicts].sort()).toEqual(["first", "second, having seen the first"]);
});

test("a server that lost the whole garden is rebuilt from the phone, also what is older than the log", async () => {
  await tab.create(garden, "bed", BED);
  await tab.sync.syncRound();
  await tab.db().sent.clear();
  server.gardens.clear();
  await tab.sync.syncRound();
  expect(stored()).toEqual(["Long Acre", "By the wall"]);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("a cursor the server no longer serves leads to reading anew, and the outbox is not touched", async () => {
  await tab.create(garden, "bed", BED);
  await tab.sync.syncRound();
  await tab.create(garden, "bed", { ...BED, name: "Waiting" });
  let told = false;
  server.fault = (_method, path) => {
    if (told || !path.endsWith("/pull")) return null;
    told = true;
    return problem(410, "cursor_too_old");
  };
  await tab.sync.syncRound();
  expect(told).toBe(true);
  expect(await names(tab)).toEqual(["By the wall", "Waiting"]);
  expect(server.pushed.flat().filter((mutation) => mutation.kind === "bed")).toHaveLength(2);
});

test("what was put back is taken as known when the server says the mutation is its own", async () => {
  await tab.sync.syncRound();
  const row = { ...(await tab.db().sent.toArray())[0]!, st: "new" as const, healed: 1, tried: 1 };
  const { n: _n, sent_at: _at, ...again } = row;
  await tab.db().outbox.add(again);
  server.fault = (_method, path, body) =>
    path.endsWith("/push")
      ? new Response(JSON.stringify({ head: "1.x", results: body!.mutations!.map(({ mid }) => ({ mid, status: "rejected", code: "mid_reused" })) }))
      : null;
  await tab.sync.syncRound().catch(() => undefined);
  expect((await first(tab.outbox.parked)).items).toEqual([]);
});
