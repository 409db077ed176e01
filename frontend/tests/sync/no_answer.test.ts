import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { DeadLine } from "../cast/dead_line";
import { GardenServer } from "../cast/garden_server";
import { first, holdSession, openTab, type Tab, until } from "../cast/phone";

let server: GardenServer;
let line: DeadLine;
let tab: Tab;
let garden: string;

beforeEach(async () => {
  server = new GardenServer();
  line = new DeadLine(server.fetch);
  vi.stubGlobal("fetch", line.fetch);
  tab = await openTab();
  await holdSession(server, tab);
  garden = await tab.create("", "garden", { name: "Long Acre" });
});
afterEach(() => vi.restoreAllMocks());

const addPaper = async (name: string) => {
  const { addPaper: add } = await import("../../src/db/papers");
  const of = { kind: "lab_profile", id: tab.newId() } as const;
  return add(garden, of, new File([`%PDF-1.7\n${name}`], name, { type: "application/pdf" }));
};

test.each(["/me", "/push", "/pull"])("a line that died in the middle counts as no signal, and the next round goes (%s)", async (path) => {
  line.dies = (asked) => asked.includes(path);
  const round = tab.sync.syncRound();
  await line.died();
  expect(line.limits.at(-1)).toBe(60_000);
  line.timeOut();
  await expect(round).rejects.toMatchObject({ status: 0, code: "no_answer" });
  line.dies = () => false;
  await tab.sync.syncRound();
  expect(await tab.db().outbox.count()).toBe(0);
});

test("the lock of all tabs is given back, and what waits goes by itself", async () => {
  line.dies = (asked) => asked.includes("/push");
  const stop = tab.sync.startSync();
  await line.died();
  line.dies = () => false;
  line.timeOut();
  await until(tab.sync.status, ({ kind }) => kind === "nosignal");
  await until(tab.sync.status, ({ kind }) => kind === "allsent");
  stop();
  expect(server.gardens.get(garden)!.rows.size).toBe(1);
});

test("an answer that stops in its middle counts as no signal too", async () => {
  line.halves = (asked) => asked.includes("/me");
  const round = tab.sync.syncRound();
  await line.died();
  line.timeOut();
  await expect(round).rejects.toMatchObject({ status: 0, code: "cut_answer" });
});

test("a dead line is waited for once, not once for each paper that others added", async () => {
  await addPaper("one.pdf");
  await addPaper("two.pdf");
  await tab.sync.syncRound();
  await tab.db().bytes.clear();
  await tab.db().blobs.clear();
  line.dies = (asked) => asked.includes("/papers/");
  const round = tab.sync.syncRound();
  await line.died();
  line.timeOut();
  await round;
  expect(line.n_died).toBe(1);
});

test("bytes and files have more time than a slow line takes for them", async () => {
  const { patience } = await import("../../src/sync/api");
  const seconds = (n_bytes: number, bits_per_s: number) => 0.4 + (n_bytes * 8) / bits_per_s;
  expect(patience("/gardens/x/push") / 1000).toBeGreaterThan(10 * seconds(500_000, 1e6));
  expect(patience("/gardens/x/blobs/y", new ArrayBuffer(500_000)) / 1000).toBeGreaterThan(10 * 3 * seconds(500_000, 1e6));
  expect(patience("/gardens/x/papers/y", new ArrayBuffer(10_000_000)) / 1000).toBeGreaterThan(3 * seconds(10_000_000, 240e3));
  expect(patience("/gardens/x/export.zip") / 1000).toBeGreaterThan(2 * seconds(200_000_000, 1e6));
});

test("a phone that knows no such limit goes on without", async () => {
  vi.stubGlobal("AbortSignal", {});
  await tab.sync.syncRound();
  vi.unstubAllGlobals();
  expect(await first(tab.outbox.counts)).toMatchObject({ waiting: 0 });
});
