import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { first, holdSession, openTab, type Tab } from "../cast/phone";

let server: GardenServer;
let tab: Tab;
let garden: string;
let bad: string;

beforeEach(async () => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  tab = await openTab();
  await holdSession(server, tab);
  garden = await tab.create("", "garden", { name: "Long Acre" });
  await tab.save(Array.from({ length: 149 }, (_, at) => lab(`Lab ${at}`)));
  bad = tab.newId();
  await tab.save([{ ...lab("Poison"), id: bad }]);
  await tab.save(Array.from({ length: 49 }, (_, at) => lab(`Later ${at}`)));
});

function lab(name: string) {
  return { op: "put" as const, garden, kind: "lab_profile" as const, id: tab.newId(), set: { name } };
}

function poisonedBy(answer: () => Response) {
  server.fault = (_method, path, body) => {
    const caught = path.endsWith("/push") && body?.mutations?.some((mutation) => mutation.id === bad);
    return caught ? answer() : null;
  };
}

async function expectOnlyTheBadOneParked(code: string) {
  const { items } = await first(tab.outbox.parked);
  expect(items).toMatchObject([{ id: bad, code }]);
  expect(server.gardens.get(garden)!.rows.size).toBe(199);
  expect(await tab.db().outbox.count()).toBe(1);
}

test("one item that makes the whole batch unreadable is found by halving and parked", async () => {
  poisonedBy(() => problem(400, "bad_json"));
  await tab.sync.syncRound();
  await expectOnlyTheBadOneParked("bad_json");
  expect(server.requests.filter((request) => request.endsWith("/push")).length).toBeLessThan(20);
});

test("a batch that is too large is halved until it fits", async () => {
  server.fault = (_method, path, body) => (path.endsWith("/push") && body!.mutations!.length > 60 ? problem(413, "batch_too_large") : null);
  await tab.sync.syncRound();
  expect(server.gardens.get(garden)!.rows.size).toBe(200);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("an item on which the server fails three times is parked, the others go on", async () => {
  poisonedBy(() => problem(500, ""));
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ status: 500 });
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ status: 500 });
  await tab.sync.syncRound();
  await expectOnlyTheBadOneParked("http_500");
});

test("a server that fails at everything parks nothing", async () => {
  server.fault = (_method, path) => (path.includes("/gardens/") ? problem(500, "") : null);
  for (let attempt = 0; attempt < 6; attempt += 1) await expect(tab.sync.syncRound()).rejects.toThrow();
  expect(await tab.db().outbox.where("st").equals("new").count()).toBe(200);
});

test("waiting times grow to five minutes at most, spread by chance, and the server's wish is obeyed", () => {
  const longest = [0, 1, 2, 5, 7, 8, 20].map((failed) => tab.sync.delayAfter(failed, null, () => 1) / 1000);
  expect(longest).toEqual([2, 4, 8, 64, 256, 300, 300]);
  expect(tab.sync.delayAfter(8, null, () => 0)).toBe(0);
  expect(tab.sync.delayAfter(0, 90)).toBe(90_000);
});
