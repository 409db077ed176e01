import { expect, test, vi } from "vitest";
import { BED, first, openTab } from "../cast/phone";

async function phoneWithAcknowledgedBed() {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const bed = await tab.create(garden, "bed", BED);
  await tab.db().outbox.toCollection().modify((row) => void Object.assign(row, { st: "ack", ack: 2, tried: 1 }));
  const record = { id: bed, kind: "bed", seq: 9, deleted: false, by: "ben", device: null, rev: {}, doc: { ...BED, name: "Newer" } };
  return { tab, garden, bed, record };
}

const page = (cursor: number, records: object[], more = false) => ({ cursor, head: `${cursor}.0123456789abcdef`, more, records: records as never[] });

test("an acknowledged change stays until its record has come, also when the record moved on while the pages were read", async () => {
  const { tab, garden, bed, record } = await phoneWithAcknowledgedBed();
  await tab.feed.storePage(tab.db(), garden, page(5, []), 0);
  expect(await first(tab.read.one(garden, "bed", bed))).toMatchObject({ doc: { name: "By the wall" }, unsent: false });
  await tab.feed.storePage(tab.db(), garden, page(9, [record]), 5);
  expect(await first(tab.read.one(garden, "bed", bed))).toMatchObject({ doc: { name: "Newer" }, seq: 9 });
  expect(await tab.db().outbox.count()).toBe(0);
});

test("between two pages nothing acknowledged goes", async () => {
  const { tab, garden, record } = await phoneWithAcknowledgedBed();
  await tab.feed.storePage(tab.db(), garden, page(9, [record], true), 0);
  expect(await tab.db().outbox.count()).toBe(2);
});

test("page, cursor and history mark are stored together or not at all", async () => {
  const { tab, garden, record } = await phoneWithAcknowledgedBed();
  vi.spyOn(tab.db().meta, "put").mockRejectedValue(new Error("cut"));
  await expect(tab.feed.storePage(tab.db(), garden, page(9, [record]), 0)).rejects.toThrow();
  vi.restoreAllMocks();
  expect(await tab.db().records.count()).toBe(0);
  expect(await tab.feed.progressOf(tab.db(), garden)).toEqual({ cursor: 0, high: null });
});

test("the history mark never goes back, the cursor is what the page says", async () => {
  const { tab, garden } = await phoneWithAcknowledgedBed();
  await tab.feed.storePage(tab.db(), garden, page(9, []), 0);
  await tab.feed.raiseHigh(tab.db(), garden, "4.0123456789abcdef");
  expect(await tab.feed.progressOf(tab.db(), garden)).toEqual({ cursor: 9, high: "9.0123456789abcdef" });
});
