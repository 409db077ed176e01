import { expect, test, vi } from "vitest";
import { BED, first, openTab, until } from "../cast/phone";

test("a save writes one outbox row and leaves the server's copy alone", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const bed = await tab.create(garden, "bed", BED);
  const rows = await tab.db().outbox.toArray();
  expect(rows.map(({ op, kind, id, base, st }) => ({ op, kind, id, base, st }))).toEqual([
    { op: "put", kind: "garden", id: garden, base: 0, st: "new" },
    { op: "put", kind: "bed", id: bed, base: 0, st: "new" },
  ]);
  expect(await tab.db().records.count()).toBe(0);
});

test("a save is one transaction: when it is cut in the middle nothing of it remains", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const unstorable = () => undefined; // IndexedDB cannot clone a function, so the second step fails
  const steps = [
    { op: "put" as const, garden, kind: "bed" as const, id: tab.newId(), set: { ...BED } },
    { op: "put" as const, garden, kind: "bed" as const, id: tab.newId(), set: { name: unstorable } },
  ];
  await expect(tab.save(steps)).rejects.toMatchObject({ name: "SaveFailed", reason: "broken" });
  expect(await tab.db().outbox.count()).toBe(1);
  expect(await tab.first(tab.house.notSaved)).toBe(true);
});

test("what was saved is there after the page is killed and opened again", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  await tab.create(garden, "bed", BED);
  await tab.drafts.keep("bed/new", { name: "half a na" });
  const again = await openTab(tab.account);
  const beds = await first(again.read.all(garden, "bed"));
  expect(beds.map((bed) => bed.doc.name)).toEqual(["By the wall"]);
  expect(await again.drafts.recall("bed/new")).toEqual({ name: "half a na" });
});

test("changes to one unsent record join into one row under a new id of mutation", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const bed = await tab.create(garden, "bed", BED);
  const before = (await tab.db().outbox.where("id").equals(bed).first())!;
  await tab.change(garden, "bed", bed, { name: "By the gate", soil: "loam" });
  const rows = await tab.db().outbox.where("id").equals(bed).toArray();
  expect(rows).toHaveLength(1);
  expect(rows[0]!.op).toBe("put");
  expect(rows[0]!.set).toEqual({ ...BED, name: "By the gate", soil: "loam" });
  expect(rows[0]!.mid).not.toBe(before.mid);
});

test("a row that may have reached the server is never edited", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  await tab.db().outbox.toCollection().modify({ tried: 1 });
  await tab.change(garden, "garden", garden, { name: "Short Acre" });
  const rows = await tab.db().outbox.orderBy("n").toArray();
  expect(rows.map((row) => row.set)).toEqual([{ name: "Long Acre" }, { name: "Short Acre" }]);
});

test("a removed record disappears and comes back whole, sent or not", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const bed = await tab.create(garden, "bed", BED);
  await tab.remove(garden, "bed", bed);
  expect(await first(tab.read.one(garden, "bed", bed))).toBeNull();
  await tab.restore(garden, "bed", bed);
  expect((await tab.db().outbox.toArray()).map((row) => row.op)).toEqual(["put", "put"]);
  await tab.remove(garden, "bed", bed);
  await tab.db().outbox.toCollection().modify({ tried: 1 });
  await tab.restore(garden, "bed", bed);
  expect(await first(tab.read.one(garden, "bed", bed))).toMatchObject({ doc: { ...BED, soil: "" } });
});

test("text is stored well formed and without NUL", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "cut \ud83c here\0", note: "whole 🌱" });
  expect((await first(tab.read.one(garden, "garden", garden)))!.doc).toMatchObject({ name: "cut \ufffd here", note: "whole 🌱" });
});

test("a list follows a save at once, and a second tab's save too", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const beds = tab.read.all(garden, "bed");
  const one = until(beds, (list) => list.length === 1);
  await tab.create(garden, "bed", BED);
  await one;
  const two = until(beds, (list) => list.length === 2);
  const other = await openTab(tab.account);
  await other.create(garden, "bed", { ...BED, name: "Second" });
  expect((await two).map((bed) => bed.doc.name).sort()).toEqual(["By the wall", "Second"]);
});

test("a record moved to another parent is listed there and only there", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const [from, to] = [await tab.create(garden, "bed", BED), await tab.create(garden, "bed", BED)];
  const planting = await tab.create(garden, "planting", { bed: from, crop: "Okra", grown: { from_on: "2026-05-01", to_on: null } });
  await tab.db().outbox.toCollection().modify({ tried: 1 });
  await tab.change(garden, "planting", planting, { bed: to });
  expect(await first(tab.read.children(garden, "planting", from))).toEqual([]);
  expect((await first(tab.read.children(garden, "planting", to))).map((row) => row.doc.crop)).toEqual(["Okra"]);
});

test("a dead database handle is opened anew and the save goes through", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const real = tab.db().transaction.bind(tab.db());
  vi.spyOn(tab.db(), "transaction")
    .mockImplementationOnce((() => Promise.reject(Object.assign(new Error("lost"), { name: "UnknownError" }))) as never)
    .mockImplementation(real as never);
  await tab.create(garden, "bed", BED);
  expect(await tab.db().outbox.count()).toBe(2);
});

test("each account has a database of its own", async () => {
  const ana = await openTab();
  const garden = await ana.create("", "garden", { name: "Ana's" });
  const ben = await openTab();
  expect(await first(ben.read.gardens)).toEqual([]);
  await ben.house.openHouse(ana.account);
  expect((await first(ben.read.gardens)).map((row) => row.id)).toEqual([garden]);
  expect((await ben.db().outbox.toArray()).map((row) => row.account)).toEqual([ana.account.id]);
});
