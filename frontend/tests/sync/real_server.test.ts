import Dexie from "dexie";
import { IDBFactory } from "fake-indexeddb";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { newBagCode } from "../../src/capture/code";
import { BED, first, newAccount, openTab, type Tab } from "../cast/phone";
import { GROWER, RealServer } from "../cast/real_server";

vi.setConfig({ testTimeout: 60_000 }); // a real server is started, stopped and restored on a shared machine
const server = new RealServer();
beforeAll(() => server.prepare(), 60_000);
afterAll(() => server.end());

interface Phone extends Tab {
  line: typeof fetch;
}

/** A phone with its own disk and its own cookies, signed in. */
async function phone(): Promise<Phone> {
  Dexie.dependencies.indexedDB = new IDBFactory();
  localStorage.clear();
  const tab = Object.assign(await openTab(newAccount()), { line: server.line() });
  vi.stubGlobal("fetch", tab.line);
  await tab.sync.signIn(GROWER.username, GROWER.password);
  await vi.waitUntil(async () => (await first(tab.sync.line)).state === "reached");
  return tab;
}

async function sync(one: Phone): Promise<void> {
  vi.stubGlobal("fetch", one.line);
  await one.sync.syncRound();
}

const names = async (of: Tab, garden: string) => (await first(of.read.all(garden, "bed"))).map((bed) => bed.doc.name).sort();

test("a garden with every kind of record reaches the server and a second phone as it was typed", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre", note: "accents: ő Ł ğ ñ 🌱" });
  const bed = await one.create(garden, "bed", BED);
  const planting = await one.create(garden, "planting", { bed, crop: "Okra", grown: { from_on: "2026-05-01", to_on: null }, plants: [[30, 25], [30, 75]] });
  const check = await one.create(garden, "root_check", { planting, checked_on: "2026-08-20", chosen: { how: "every_kth", every_k: 3 } });
  const place = { x_cm: 30, y_cm: 25, plant: 1 };
  const rating = await one.create(garden, "gall_rating", { root_check: check, place, reading: { state: "rated", grade: 4, gall_scale: "pct10", trace_only: false }, rated_at: one.now() });
  await one.create(garden, "lab_profile", { name: "Our lab" });
  await one.create(garden, "soil_sample", { bed, code: newBagCode(), purpose: "diagnose", parcel: { sent_on: "2026-08-21", arrived_on: null } });
  await one.photos.addPhoto(garden, { kind: "gall_rating", id: rating }, server.heic());
  await sync(one);
  expect((await first(one.outbox.waiting)).items).toEqual([]);
  const two = await phone();
  for (const kind of ["garden", "bed", "planting", "root_check", "gall_rating", "lab_profile", "soil_sample", "photo"] as const) {
    const [mine, theirs] = [await first(one.read.all(garden, kind)), await first(two.read.all(garden, kind))];
    expect(theirs.map((record) => record.doc)).toEqual(mine.map((record) => record.doc));
    expect(theirs).toHaveLength(1);
  }
});

test("a photo the phone could not open is turned by the server and shown as the server made it", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Photo garden" });
  const bed = await one.create(garden, "bed", BED);
  await one.photos.addPhoto(garden, { kind: "bed", id: bed }, server.heic());
  await sync(one);
  const [photo] = await first(one.read.children(garden, "photo", bed));
  expect(photo!.doc).toMatchObject({ blob: "stored", width_px: 640, height_px: 480 });
  one.photos.photosComeFrom(one.sync.fetchPhoto);
  expect(await one.photos.photoUrl(photo!, "thumb")).toMatch(/^blob:/);
  expect((await one.db().blobs.toArray())[0]!.thumb!.byteLength).toBeGreaterThan(100);
});

test("two phones that disagree make one conflict; taking the other value ends it on both", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await sync(one);
  const two = await phone();
  await one.change(garden, "garden", garden, { note: "from the first" });
  await two.change(garden, "garden", garden, { note: "from the second" });
  await sync(one);
  await sync(two);
  const [conflict] = await first(two.read.all(garden, "conflict"));
  expect(conflict!.doc).toMatchObject({ field: "note", kept: "from the first", other: "from the second", state: "open" });
  await two.closeConflict(garden, conflict!.id, "taken");
  await sync(two);
  await sync(one);
  for (const each of [one, two]) {
    expect((await first(each.read.one(garden, "garden", garden)))!.doc.note).toBe("from the second");
    expect((await first(each.read.all(garden, "conflict"))).map((record) => record.doc.state)).toEqual(["taken"]);
  }
});

test("a bed removed and put back is whole on both phones", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  const bed = await one.create(garden, "bed", BED);
  await sync(one);
  await one.remove(garden, "bed", bed);
  await sync(one);
  const two = await phone();
  expect(await names(two, garden)).toEqual([]);
  await one.restore(garden, "bed", bed);
  await sync(one);
  await sync(two);
  expect(await names(two, garden)).toEqual(["By the wall"]);
});

test("a phone that signed out and is paired again goes on under its own device id, and the server has ended the old session", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await sync(one);
  const device = await one.device();
  const old = one.line;
  await one.sync.signOut();
  await one.sync.endOldSession();
  expect((await old("/api/v1/me")).status).toBe(401);
  const disk = Dexie.dependencies.indexedDB;
  const two = await phone();
  const { url } = await two.sync.newPairing();
  Dexie.dependencies.indexedDB = disk;
  vi.stubGlobal("fetch", one.line);
  await one.sync.pairWith(url.split("#")[1]!);
  expect(await one.device()).toBe(device);
  await one.change(garden, "garden", garden, { note: "by the same phone" });
  await sync(one);
  expect(await one.db().outbox.count()).toBe(0);
});

test("a refused value is parked with the server's sentence and the rest arrives", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await one.create(garden, "bed", { ...BED, name: "Good" });
  await one.create(garden, "bed", { ...BED, name: "Too deep", depth_cm: 5000 });
  await sync(one);
  const { items } = await first(one.outbox.parked);
  expect(items).toMatchObject([{ code: "bad_value", field: "depth_cm" }]);
  expect(items[0]!.message).toMatch(/200/);
  await one.outbox.editParked(items[0]!.n, { depth_cm: 50 });
  await sync(one);
  expect(await one.db().outbox.count()).toBe(0);
});

test("a folder copied back by hand is noticed, and the phone gives the server what it lost", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await one.create(garden, "bed", { ...BED, name: "Before" });
  await sync(one);
  const copy = await server.backup();
  await one.create(garden, "bed", { ...BED, name: "Lost" });
  await sync(one);
  await server.restore(copy);
  await sync(one);
  const two = await phone();
  expect(await names(two, garden)).toEqual(["Before", "Lost"]);
  expect(await one.db().outbox.count()).toBe(0);
});

test("after a restore a phone gives back what another made and lost, with its own change to it, and closes an old conflict alone", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await sync(one);
  const two = await phone();
  const copy = await server.backup();
  const bed = await two.create(garden, "bed", { ...BED, name: "By the second" });
  await two.change(garden, "garden", garden, { note: "from the second" });
  await sync(two);
  await one.change(garden, "garden", garden, { note: "from the first" });
  await sync(one);
  await one.change(garden, "bed", bed, { soil: "sand" });
  await server.restore(copy);
  await sync(one);
  const [conflict] = await first(one.read.all(garden, "conflict"));
  await one.closeConflict(garden, conflict!.id, "kept");
  await sync(one);
  await sync(two);
  await sync(one);
  for (const each of [one, two]) {
    expect((await first(each.outbox.parked)).items).toEqual([]);
    expect((await first(each.read.one(garden, "bed", bed)))!.doc).toMatchObject({ name: "By the second", soil: "sand" });
  }
  expect(conflict!.doc).toMatchObject({ kept: "from the second", other: "from the first" });
});

test("a stopped server is no signal; everything waits and goes when it is back", async () => {
  const one = await phone();
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await sync(one);
  await server.stop();
  await one.create(garden, "bed", BED);
  await expect(sync(one)).rejects.toMatchObject({ status: 0 });
  expect(await one.db().outbox.count()).toBe(1);
  await server.start();
  await sync(one);
  expect(await one.db().outbox.count()).toBe(0);
});
