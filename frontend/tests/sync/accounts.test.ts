import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer } from "../cast/garden_server";
import { BED, first, holdSession, newAccount, openTab, startTab, type Tab, until } from "../cast/phone";

let server: GardenServer;
let tab: Tab;

beforeEach(async () => {
  localStorage.clear();
  Dexie.dependencies.indexedDB = new IDBFactory();
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  tab = await openTab();
  await holdSession(server, tab);
});

const allSent = (of: Tab) => until(of.outbox.counts, (counts) => counts.waiting === 0);

test("what one server's account holds is not sent to another server that answers at the same address", async () => {
  const garden = await tab.create("", "garden", { name: "Of the first server" });
  await tab.create(garden, "bed", BED);
  await tab.sync.signOut();
  const another = new GardenServer();
  another.account = { ...newAccount(), username: tab.account.username };
  vi.stubGlobal("fetch", another.fetch);
  await tab.sync.signIn(tab.account.username, "a long pass phrase");
  await tab.sync.syncRound();
  expect(another.gardens.size).toBe(0);
  expect(tab.db().account.id).toBe(another.account.id);
});

test("a page still under way when the account changes lands in neither account's database", async () => {
  await tab.create("", "garden", { name: "Long Acre" });
  const { house } = tab;
  const mine = tab.db();
  let changed = false;
  vi.stubGlobal("fetch", async (url: string, init: RequestInit) => {
    const answer = await server.fetch(url, init);
    if (url.includes("/pull") && !changed) {
      changed = true;
      await house.leaveHouse();
      await house.openHouse(newAccount());
    }
    return answer;
  });
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ name: "SaveFailed" });
  expect(changed).toBe(true);
  expect(tab.db()).not.toBe(mine);
  expect(await tab.db().records.count()).toBe(0);
});

test("after the account has changed in the middle of a round, the loop goes on with the new one", async () => {
  await tab.create("", "garden", { name: "Long Acre" });
  const next = newAccount();
  let changed = false;
  vi.stubGlobal("fetch", async (url: string, init: RequestInit) => {
    const answer = await server.fetch(url, init);
    if (url.includes("/push") && !changed) {
      changed = true;
      await tab.house.leaveHouse();
      await tab.house.openHouse(next);
      server.gardens.clear();
      await holdSession(server, Object.assign({ ...tab }, { account: next }));
    }
    return answer;
  });
  const stop = tab.sync.startSync();
  await until(tab.sync.line, (line) => line.state === "reached");
  stop();
  expect(server.requests.at(-1)).toBe("GET /me");
});

test("pairing after signing out gives the session the device id the account had on this phone", async () => {
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const device = await tab.device();
  server.loseAnswer = true;
  await tab.sync.syncRound().catch(() => undefined);
  await tab.sync.signOut();
  await tab.sync.pairWith("a token");
  await allSent(tab);
  expect(await tab.device()).toBe(device);
  expect(server.device).toBe(device);
  expect(server.gardens.get(garden)!.journal).toHaveLength(1);
});

test("a sign-out without a signal ends the server's session at the next contact", async () => {
  await tab.sync.syncRound();
  server.fault = () => {
    throw new TypeError("no signal");
  };
  await tab.sync.signOut();
  expect(await first(tab.house.session)).toEqual({ account: null });
  expect(server.signedIn).toBe(true);
  const stop = tab.sync.keepEnding();
  server.fault = () => null;
  dispatchEvent(new Event("online"));
  await vi.waitUntil(() => !server.signedIn);
  stop();
});

test("signing in again leaves no old session to end", async () => {
  server.fault = (_method, path) => {
    if (path === "/logout") throw new TypeError("no signal");
    return null;
  };
  await tab.sync.signOut();
  await tab.sync.signIn(tab.account.username, "a long pass phrase");
  server.fault = () => null;
  await tab.sync.endOldSession();
  expect(server.signedIn).toBe(true);
});

test("a browser killed before it kept whose phone it is finds that out again, and signing in shows and sends what waits", async () => {
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const device = await tab.device();
  localStorage.clear();
  server.signedIn = false;
  const after = await startTab(tab.account);
  expect(await first(after.house.session)).toEqual({ account: null });
  await after.house.recallHolder();
  expect(await first(after.house.session)).toEqual({ account: tab.account });
  await after.sync.signIn(tab.account.username, "a long pass phrase");
  expect((await first(after.read.gardens)).map(({ id }) => id)).toEqual([garden]);
  await allSent(after);
  expect(server.device).toBe(device);
});

test("a browser killed before it forgot whose phone it was stays signed out", async () => {
  await tab.sync.signOut();
  localStorage.setItem("knotbed-account", JSON.stringify(tab.account));
  const after = await startTab(tab.account);
  await after.house.recallHolder();
  expect(await first(after.house.session)).toEqual({ account: null });
});
