import { get } from "svelte/store";
import { expect, test, vi } from "vitest";
import { openTab, type Tab, until } from "../cast/phone";

/** A disk that has no room while the reserve is on it, as Chromium reports it: the transaction aborts, the cause is inside. */
function fillDisk(tab: Tab) {
  const real = tab.db().transaction.bind(tab.db()) as (...args: unknown[]) => Promise<unknown>;
  const full = Object.assign(new Error("aborted"), { name: "AbortError", inner: { name: "QuotaExceededError" } });
  vi.spyOn(tab.db(), "transaction").mockImplementation((async (...args: unknown[]) => {
    if ((await tab.db().ballast.count()) > 0) throw full;
    return real(...args);
  }) as never);
}

async function withReserve(): Promise<Tab> {
  const tab = await openTab();
  await vi.waitUntil(async () => (await tab.db().ballast.count()) === 1);
  return tab;
}

test("the reserve is five million bytes from the first day", async () => {
  const tab = await withReserve();
  expect(((await tab.db().ballast.toArray())[0]!.v as ArrayBuffer).byteLength).toBe(5_000_000);
});

test("on a full disk the reserve makes room, the rating is kept, and photos stop", async () => {
  const tab = await withReserve();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  fillDisk(tab);
  await tab.create(garden, "gall_rating", { root_check: "c", rated_at: "2026-08-01T09:00:00Z" });
  expect(await tab.db().outbox.where("garden").equals(garden).count()).toBe(2);
  expect(await tab.db().ballast.count()).toBe(0);
  expect(get(tab.house.noMorePhotos)).toBe(true);
  await expect(tab.photos.addPhoto(garden, { kind: "bed", id: "b" }, new Blob(["x"]))).rejects.toMatchObject({ reason: "full" });
});

test("when even the reserve does not help, the person is told that it is not saved", async () => {
  const tab = await withReserve();
  const full = Object.assign(new Error("full"), { name: "QuotaExceededError" });
  vi.spyOn(tab.db(), "transaction").mockImplementation((() => Promise.reject(full)) as never);
  await expect(tab.create("", "garden", { name: "Long Acre" })).rejects.toMatchObject({ name: "SaveFailed", reason: "full" });
  expect(get(tab.house.notSaved)).toBe(true);
  vi.restoreAllMocks();
  await tab.create("", "garden", { name: "Long Acre" });
  await until(tab.house.notSaved, (state) => !state);
});

test("only a person's save says not saved, and only a person's save takes that back", async () => {
  const tab = await withReserve();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const page = { cursor: 1, head: "1.0123456789abcdef", more: false, records: [] };
  const full = Object.assign(new Error("full"), { name: "QuotaExceededError" });
  vi.spyOn(tab.db(), "transaction").mockImplementation((() => Promise.reject(full)) as never);
  await expect(tab.feed.storePage(tab.db(), garden, page, 0)).rejects.toMatchObject({ reason: "full" });
  expect(get(tab.house.notSaved)).toBe(false);
  await expect(tab.change(garden, "garden", garden, { note: "typed" })).rejects.toMatchObject({ reason: "full" });
  vi.restoreAllMocks();
  await tab.feed.storePage(tab.db(), garden, page, 0);
  await tab.drafts.keep("a form", { half: "filled" });
  expect(get(tab.house.notSaved)).toBe(true);
  await tab.change(garden, "garden", garden, { note: "typed again" });
  expect(get(tab.house.notSaved)).toBe(false);
});

test("a save that the browser never answers is told as not saved, and taken back when it does", async () => {
  const tab = await withReserve();
  const real = tab.db().transaction.bind(tab.db()) as (...args: unknown[]) => Promise<unknown>;
  let answer = () => {};
  const silence = new Promise<void>((resolve) => (answer = resolve));
  vi.spyOn(tab.db(), "transaction").mockImplementation((async (...args: unknown[]) => silence.then(() => real(...args))) as never);
  vi.useFakeTimers({ toFake: ["setTimeout", "clearTimeout"] });
  const saving = tab.create("", "garden", { name: "Long Acre" });
  vi.advanceTimersByTime(4_900);
  expect(get(tab.house.notSaved)).toBe(false);
  vi.advanceTimersByTime(200);
  expect(get(tab.house.notSaved)).toBe(true);
  vi.useRealTimers();
  answer();
  await saving;
  expect(get(tab.house.notSaved)).toBe(false);
});
