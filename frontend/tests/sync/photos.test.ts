import { beforeEach, expect, test, vi } from "vitest";
import { hashOf } from "../../src/capture/hash";
import { GardenServer, problem } from "../cast/garden_server";
import { first, holdSession, openTab, type Tab } from "../cast/phone";
import { heic } from "../cast/pictures";

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

const take = (fill = 1) => tab.photos.addPhoto(garden, { kind: "bed", id: "b" }, heic(fill));
const states = async () => (await tab.db().blobs.toArray()).map((blob) => blob.st);

test("record and bytes are kept in one transaction and the record names the bytes", async () => {
  const id = await take();
  const photo = await first(tab.read.one(garden, "photo", id));
  expect(photo!.doc).toMatchObject({ mime: "image/heic", n_bytes: 64, width_px: 4032, height_px: 3024, blob: "pending" });
  const { bytes } = (await tab.db().bytes.get([garden, photo!.doc.sha256]))!;
  expect(bytes).toBeInstanceOf(ArrayBuffer);
  expect(hashOf(bytes)).toBe(photo!.doc.sha256);
});

test("the record goes before the bytes, and the bytes stay here until a pull has shown them stored a month long", async () => {
  await take();
  server.fault = (_method, path) => (path.endsWith("/pull") && server.blobs.size > 0 ? problem(500, "") : null);
  await expect(tab.sync.syncRound()).rejects.toThrow();
  expect(server.requests.findIndex((r) => r.includes("/push"))).toBeLessThan(server.requests.findIndex((r) => r.startsWith("PUT")));
  expect(await tab.db().bytes.count()).toBe(1);
  server.fault = () => null;
  await tab.sync.syncRound();
  expect(await states()).toEqual(["shown"]);
  expect(await tab.db().bytes.count()).toBe(1);
  await tab.db().blobs.toCollection().modify({ added_at: Date.now() - 31 * 24 * 3_600_000 });
  await tab.change(garden, "garden", garden, { note: "a month later" });
  await tab.sync.syncRound();
  expect(await states()).toEqual(["stored"]);
  expect(await tab.db().bytes.count()).toBe(0);
});

test("bytes whose record was saved after the push wait for the next one: the server would only refuse them", async () => {
  await take(1);
  let taken = false;
  vi.stubGlobal("fetch", async (...asked: Parameters<typeof fetch>) => {
    if (String(asked[0]).includes("/pull") && !taken) {
      taken = true;
      await take(2);
    }
    return server.fetch(...asked);
  });
  await tab.sync.syncRound();
  expect([taken, server.requests.filter((r) => r.startsWith("PUT")).length]).toEqual([true, 1]);
  await tab.sync.syncRound();
  expect(server.requests.filter((r) => r.startsWith("PUT")).length).toBe(2);
  expect(await tab.db().outbox.count()).toBe(0);
});

test("bytes that a refused record names go all the same when the server has another record of them", async () => {
  server.fault = (method) => (method === "PUT" ? problem(507, "server_full") : null);
  await take();
  await tab.sync.syncRound();
  server.reject = () => ({ code: "bad_value" });
  server.fault = () => null;
  await take();
  await tab.sync.syncRound();
  expect((await first(tab.outbox.parked)).items).toMatchObject([{ kind: "photo", code: "bad_value" }]);
  expect(server.blobs.size).toBe(1);
});

test.each([
  ["ack", 1],
  ["held", 1],
  ["new", 0],
  ["parked", 0],
] as const)("bytes named by a change that waits go once another change that names them is taken (%s)", async (st, n) => {
  await take();
  const one = (await tab.db().outbox.toArray()).at(-1)!;
  await take();
  await tab.db().outbox.update(one.n!, { st });
  const { waitingBlobs } = await import("../../src/db/blobs");
  expect(await waitingBlobs(tab.db(), garden)).toHaveLength(n);
});

test("bytes of a removed record do not go because of it while another one that names them is parked", async () => {
  await removedHalfway();
  server.reject = () => ({ code: "bad_value" });
  const before = puts();
  await take();
  await tab.sync.syncRound();
  expect([puts(), await states()]).toEqual([before, ["waiting"]]);
});

test("a full phone lets go at once of the bytes the server has", async () => {
  await take();
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(1);
  tab.house.noMorePhotos.set(true);
  await tab.change(garden, "garden", garden, { note: "no room left" });
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(0);
});

test("photos go three at a time", async () => {
  for (const fill of [1, 2, 3, 4, 5]) await take(fill);
  let [now, most] = [0, 0];
  vi.stubGlobal("fetch", async (url: string, init: RequestInit) => {
    if (init.method !== "PUT") return server.fetch(url, init);
    now += 1;
    most = Math.max(most, now);
    await new Promise((resolve) => setTimeout(resolve, 10));
    now -= 1;
    return server.fetch(url, init);
  });
  await tab.sync.syncRound();
  expect(most).toBe(3);
  expect(server.blobs.size).toBe(5);
});

test("bytes that spoiled on this phone are parked and shown, not sent", async () => {
  await take();
  await tab.db().bytes.toCollection().modify((row) => void (row.bytes = new ArrayBuffer(64)));
  await tab.sync.syncRound();
  expect((await first(tab.outbox.parked)).photos).toMatchObject([{ code: "damaged" }]);
  expect(server.requests.some((request) => request.startsWith("PUT"))).toBe(false);
});

test("a photo the server cannot open is parked, its record and the others go on", async () => {
  await take(1);
  await take(2);
  let puts = 0;
  server.fault = (method) => (method === "PUT" && (puts += 1) === 1 ? problem(415, "bad_image") : null);
  await tab.sync.syncRound();
  expect((await states()).sort()).toEqual(["parked", "shown"]);
  expect((await first(tab.read.all(garden, "photo"))).length).toBe(2);
});

test("a full server stops the photos and nothing else", async () => {
  await take();
  server.fault = (method) => (method === "PUT" ? problem(507, "server_full") : null);
  await tab.sync.syncRound();
  expect(await states()).toEqual(["waiting"]);
  expect(await tab.db().outbox.count()).toBe(0);
});

const puts = () => server.requests.filter((request) => request.startsWith("PUT")).length;

/** A photo whose record has arrived and whose bytes have not, removed again. */
async function removedHalfway(): Promise<string> {
  server.fault = (method) => (method === "PUT" ? problem(507, "server_full") : null);
  const id = await take();
  await tab.sync.syncRound();
  server.fault = () => null;
  await tab.remove(garden, "photo", id);
  await tab.sync.syncRound();
  return id;
}

test("the bytes of a removed photo are not tried for ever, wait no more, and go when the removal cannot be undone any longer", async () => {
  await removedHalfway();
  const tried = puts();
  await tab.sync.syncRound();
  expect(puts()).toBe(tried);
  expect(await states()).toEqual(["aside"]);
  expect(await first(tab.outbox.counts)).toMatchObject({ photos: 0 });
  await tab.db().sent.toCollection().modify({ sent_at: Date.now() - 31 * 24 * 3_600_000 });
  const later = await openTab(tab.account);
  await later.sync.syncRound();
  expect(await later.db().bytes.count()).toBe(0);
  expect(await later.db().blobs.count()).toBe(0);
});

test("a removed photo that is put back after a round still has its bytes and sends them", async () => {
  const id = await removedHalfway();
  await tab.restore(garden, "photo", id);
  expect(await states()).toEqual(["waiting"]);
  await tab.sync.syncRound();
  expect(server.blobs.size).toBe(1);
  expect(await states()).toEqual(["shown"]);
});

test("a photo that somebody else puts back gets its bytes from the phone that has them", async () => {
  const id = await removedHalfway();
  const { rows, journal } = server.gardens.get(garden)!;
  Object.assign(rows.get(id)!, { deleted: false, seq: journal.length + 1 });
  journal.push({ mid: "back", seq: journal.length + 1, tag: "b", device: "", status: "applied" });
  await tab.sync.syncRound();
  expect(server.blobs.size).toBe(1);
});

test("bytes old enough to go are let go at the next start, also when nothing new comes", async () => {
  await take();
  await tab.sync.syncRound();
  await tab.db().blobs.toCollection().modify({ added_at: Date.now() - 31 * 24 * 3_600_000 });
  const later = await openTab(tab.account);
  await later.sync.syncRound();
  expect(await later.db().bytes.count()).toBe(0);
});

test("a server restored from before the upload gets the bytes again while they are here", async () => {
  await take();
  await tab.sync.syncRound();
  const [photo] = [...server.gardens.get(garden)!.rows.values()].filter((row) => row.kind === "photo");
  server.blobs.clear();
  photo!.doc["blob"] = "pending";
  photo!.seq = server.gardens.get(garden)!.journal.length + 1;
  server.gardens.get(garden)!.journal.push({ mid: "x", seq: photo!.seq, tag: "x", device: "", status: "applied" });
  await tab.sync.syncRound();
  expect(server.blobs.size).toBe(1);
});

test("everything that waits can be saved as one readable file with the photos inside", async () => {
  const id = await take();
  const file = JSON.parse(await (await tab.outbox.saveAllToFile()).text());
  expect(Object.keys(file)[0]).toBe("about");
  expect(file.about).toContain("had not yet reached the garden's server");
  expect(file.changes.map((change: { kind: string }) => change.kind)).toEqual(["garden", "photo"]);
  expect(file.changes[1]).toMatchObject({ id, refused: null });
  const bytes = Uint8Array.from(atob(file.photos[0].base64), (sign) => sign.charCodeAt(0));
  expect(hashOf(bytes.buffer)).toBe(file.photos[0].sha256);
});
