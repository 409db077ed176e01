import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { holdSession, openTab, type Tab, until } from "../cast/phone";
import { heic } from "../cast/pictures";

const HOUR_S = 3600;

let server: GardenServer;
let tab: Tab;
let garden: string;
let stop = () => {};

beforeEach(async () => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  tab = await openTab();
  await holdSession(server, tab);
  garden = await tab.create("", "garden", { name: "Long Acre" });
});
afterEach(() => {
  stop();
  stop = () => {};
  vi.useRealTimers();
});

const take = (fill = 1, where = garden) => tab.photos.addPhoto(where, { kind: "bed", id: "b" }, heic(fill));
const puts = (where = garden) => server.requests.filter((request) => request.startsWith(`PUT /gardens/${where}/`)).length;
const slowDown = (wait_s = HOUR_S) => problem(429, "slow_down", { "Retry-After": `${wait_s}` });
const refuse = (matches: (method: string, path: string) => boolean, wait_s = HOUR_S) => {
  server.fault = (method, path) => (matches(method, path) ? slowDown(wait_s) : null);
};
const name = () => server.gardens.get(garden)?.rows.get(garden)?.doc["name"];
const arrives = (wanted: string) => vi.waitUntil(() => name() === wanted, { timeout: 5_000, interval: 10 });
const reached = () => until(tab.sync.line, ({ state }) => state === "reached");

test("a server that wants no more bytes of one garden gets the records of all, and the bytes of the others", async () => {
  const other = await tab.create("", "garden", { name: "Hill" });
  await take(1);
  await take(2, other);
  refuse((method, path) => method === "PUT" && path.includes(garden));
  await tab.sync.syncRound();
  expect(await tab.db().outbox.count()).toBe(0);
  expect([puts(garden), puts(other), server.blobs.size]).toEqual([1, 1, 1]);
});

test("the bytes are not tried before the server's time is over, and then they go", async () => {
  await take();
  refuse((method) => method === "PUT");
  await tab.sync.syncRound();
  server.fault = () => null;
  await tab.sync.syncRound();
  vi.useFakeTimers({ toFake: ["Date"], now: Date.now() + (HOUR_S - 5) * 1000 });
  await tab.sync.syncRound();
  expect(puts()).toBe(1);
  vi.setSystemTime(Date.now() + 10_000);
  await tab.sync.syncRound();
  expect([puts(), server.blobs.size]).toEqual([2, 1]);
});

test("a save goes at once while the bytes wait, and a person may send them all the same", async () => {
  await take();
  refuse((method) => method === "PUT");
  stop = tab.sync.startSync();
  await reached();
  await tab.change(garden, "garden", garden, { name: "Short Acre" });
  await arrives("Short Acre");
  expect(puts()).toBe(1);
  server.fault = () => null;
  tab.sync.syncNow();
  await until(tab.sync.status, ({ kind }) => kind === "allsent");
  expect(server.blobs.size).toBe(1);
});

test("bytes that were put off go by themselves when their time has come", async () => {
  await take();
  refuse((method) => method === "PUT", 1);
  stop = tab.sync.startSync();
  await reached();
  server.fault = () => null;
  await until(tab.sync.status, ({ kind }) => kind === "allsent");
  expect(puts()).toBe(2);
});

test("what the server says about fetching holds back no save, neither a later one nor one in the middle of the round", async () => {
  let n = 0;
  server.fault = (_method, path) => {
    if (!path.endsWith("/pull")) return null;
    if ((n += 1) === 1) void tab.change(garden, "garden", garden, { name: "In the middle" });
    return slowDown();
  };
  stop = tab.sync.startSync();
  await arrives("In the middle");
  await until(tab.sync.line, ({ state }) => state === "trouble");
  await tab.change(garden, "garden", garden, { name: "Later" });
  await arrives("Later");
});

test("what it says about sending is obeyed by every save", async () => {
  refuse((_method, path) => path.endsWith("/push"));
  stop = tab.sync.startSync();
  await until(tab.sync.line, ({ state }) => state === "trouble");
  const asked = server.requests.length;
  await tab.change(garden, "garden", garden, { name: "Short Acre" });
  await new Promise((resolve) => setTimeout(resolve, 1_500));
  expect(server.requests.length).toBe(asked);
});

test("after a refusal no further bytes begin, and the round ends only when those on the line have", async () => {
  for (const fill of [1, 2, 3, 4, 5]) await take(fill);
  let [begun, now] = [0, 0];
  vi.stubGlobal("fetch", async (url: string, init: RequestInit) => {
    if (init.method !== "PUT") return server.fetch(url, init);
    if ((begun += 1) === 1) return problem(500, "first");
    now += 1;
    await new Promise((resolve) => setTimeout(resolve, 50));
    now -= 1;
    return problem(500, "later");
  });
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ code: "first" });
  expect([begun, now]).toEqual([3, 0]);
});
