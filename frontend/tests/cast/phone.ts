/** A phone of the test: its own account database, and ways to look into it. */
import { get, type Readable } from "svelte/store";
import { vi } from "vitest";

export const BED = { name: "By the wall", shape: { type: "rectangle", width_cm: 120, length_cm: 400 } } as const;

let accounts = 0;
export function newAccount(): { id: string; username: string } {
  accounts += 1;
  return { id: `0199f000-0000-7000-8000-${String(accounts).padStart(12, "0")}`, username: `grower${accounts}` };
}

/** One browser tab: every module loaded anew, on the same disk. */
export async function openTab(account = newAccount()) {
  const tab = await startTab(account);
  await tab.house.openHouse(account);
  return tab;
}

/** Faults planted into the modules of every tab from now on; the product carries none. */
export const planted: { plant: () => void } = { plant: () => undefined };

/** The same before the app knows whose phone it is. */
export async function startTab(account: { id: string; username: string }) {
  vi.resetModules();
  planted.plant();
  const house = await import("../../src/db/house");
  const { thisDevice } = await import("../../src/db/device");
  return {
    account,
    house,
    ...(await import("../../src/db/save")),
    read: await import("../../src/db/read"),
    outbox: await import("../../src/db/outbox"),
    drafts: await import("../../src/db/drafts"),
    feed: await import("../../src/db/feed"),
    photos: await import("../../src/db/photos"),
    briefing: await import("../../src/db/briefing"),
    sync: {
      ...(await import("../../src/sync/round")),
      ...(await import("../../src/sync/status")),
      ...(await import("../../src/sync/loop")),
      ...(await import("../../src/sync/session")),
      ...(await import("../../src/sync/photos")),
      ...(await import("../../src/sync/briefing")),
      ...(await import("../../src/sync/leaving")),
    },
    device: () => thisDevice(get(house.house)!),
    db: () => get(house.house)!,
    first,
  };
}
export type Tab = Awaited<ReturnType<typeof openTab>>;

/** The server's cookie is this phone's from here on. */
export async function holdSession(server: { account: object; device: string }, tab: Tab): Promise<Tab> {
  server.account = tab.account;
  server.device = await tab.device();
  return tab;
}

/** The first real value of a store. */
export function first<T>(store: Readable<T | undefined>): Promise<T> {
  return until(store, () => true);
}

/** The first value that satisfies the wish; the test times out when none comes. */
export function until<T>(store: Readable<T | undefined>, wish: (value: T) => boolean): Promise<T> {
  return new Promise((resolve) => {
    let stop: (() => void) | undefined;
    let done = false;
    stop = store.subscribe((value) => {
      if (done || value === undefined || !wish(value)) return;
      done = true;
      resolve(value);
      stop?.();
    });
    if (done) stop();
  });
}
