import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { get } from "svelte/store";
import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer } from "../cast/garden_server";
import { BED, first, holdSession, newAccount, openTab, startTab, type Tab } from "../cast/phone";

const SECRET = "a-secret-of-many-signs";
let server: GardenServer;
let garden: string;

beforeEach(async () => {
  localStorage.clear();
  Dexie.dependencies.indexedDB = new IDBFactory();
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  const grower = await openTab();
  await holdSession(server, grower);
  garden = await grower.create("", "garden", { name: "Hill" });
  await grower.create(garden, "bed", BED);
  await grower.sync.syncRound();
  await grower.sync.signOut();
  await grower.sync.endOldSession();
  server.links.set(SECRET, garden);
});

/** A phone on which the app runs; `tab` may have an owner. */
async function joinOn(tab: Tab, name = "Ana") {
  const stop = tab.sync.startSync();
  const { join } = await import("../../src/sync/joining");
  try {
    return await join(SECRET, name);
  } finally {
    stop();
  }
}

const blankPhone = () => startTab(newAccount()) as Promise<Tab>;

test("a phone that was nobody's has the garden once its person has said a name", async () => {
  const tab = await blankPhone();
  await joinOn(tab);
  expect(get(tab.house.session).account?.username).toBe("Ana");
  expect(await first(tab.read.gardens)).toMatchObject([{ id: garden, doc: { name: "Hill" } }]);
  expect(get(tab.read.currentGarden)).toBe(garden);
});

test("who is signed in keeps the account, the device and the gardens, and gains one", async () => {
  const tab = await openTab();
  await holdSession(server, tab);
  server.signedIn = true;
  const own = await tab.create("", "garden", { name: "My own" });
  const device = await tab.device();
  await joinOn(tab);
  expect(get(tab.house.session).account).toEqual(tab.account);
  expect(await tab.device()).toBe(device);
  expect((await first(tab.read.gardens)).map(({ id }) => id).sort()).toEqual([garden, own].sort());
  expect(get(tab.read.currentGarden)).toBe(garden);
});

test("somebody whose sign-in has lapsed is asked to sign in and not made somebody new", async () => {
  const tab = await openTab();
  server.signedIn = false;
  await expect(joinOn(tab)).rejects.toMatchObject({ status: 401, code: "sign_in_first" });
  expect(get(tab.house.session).account).toEqual(tab.account);
});

test("who opens the link again after signing out comes back as the same device", async () => {
  const tab = await blankPhone();
  await joinOn(tab);
  const device = await tab.device();
  await tab.sync.signOut();
  await tab.sync.endOldSession();
  const again = await blankPhone();
  await joinOn(again);
  expect(await again.device()).toBe(device);
});

test("a link that has ended changes nothing on the phone", async () => {
  const tab = await blankPhone();
  server.links.clear();
  await expect(joinOn(tab)).rejects.toMatchObject({ status: 403, code: "link_ended" });
  expect(get(tab.house.session).account).toBeNull();
});
