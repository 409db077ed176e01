import { get } from "svelte/store";
import { afterEach, beforeEach, expect, test, vi } from "vitest";

/** The page's side of a service worker: a registration that can be told that a new worker is there. */
class Registration extends EventTarget {
  waiting: object | null = null;
  installing: (EventTarget & { state?: string; postMessage?: (message: string) => void }) | null = null;
  update = vi.fn(async () => undefined);
}

let registration: Registration;
let container: EventTarget & { register?: unknown; controller?: object | null };
let sent: string[];

beforeEach(() => {
  vi.resetModules();
  vi.useFakeTimers();
  registration = new Registration();
  sent = [];
  container = Object.assign(new EventTarget(), { register: vi.fn(async () => registration), controller: {} as object | null });
  vi.stubGlobal("navigator", { serviceWorker: container });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

function newWorkerInstalled() {
  registration.installing = Object.assign(new EventTarget(), { state: "installed", postMessage: (message: string) => sent.push(message) });
  registration.dispatchEvent(new Event("updatefound"));
  registration.installing.dispatchEvent(new Event("statechange"));
}

test("a new version is offered, and takes over only when the person says so", async () => {
  const update = await import("../src/update");
  await update.watchForUpdates();
  expect(get(update.newVersion)).toBe(false);
  newWorkerInstalled();
  expect(get(update.newVersion)).toBe(true);
  expect(sent).toEqual([]);
  const reload = vi.fn();
  vi.stubGlobal("location", { reload });
  update.applyUpdate();
  expect(sent).toEqual(["SKIP_WAITING"]);
  expect(reload).not.toHaveBeenCalled();
  container.dispatchEvent(new Event("controllerchange"));
  container.dispatchEvent(new Event("controllerchange"));
  expect(reload).toHaveBeenCalledTimes(1);
});

test("a version that waited since the last visit is offered at once", async () => {
  registration.waiting = {};
  const update = await import("../src/update");
  await update.watchForUpdates();
  expect(get(update.newVersion)).toBe(true);
});

test("the very first installation is no update", async () => {
  container.controller = null;
  const update = await import("../src/update");
  await update.watchForUpdates();
  newWorkerInstalled();
  expect(get(update.newVersion)).toBe(false);
});

test("it looks again every hour and on coming back", async () => {
  const update = await import("../src/update");
  await update.watchForUpdates();
  vi.advanceTimersByTime(3_600_000);
  document.dispatchEvent(new Event("visibilitychange"));
  expect(registration.update).toHaveBeenCalledTimes(2);
});

test("where no worker can be had the page goes on without one", async () => {
  container.register = vi.fn(async () => Promise.reject(new Error("not a secure address")));
  const update = await import("../src/update");
  await expect(update.watchForUpdates()).resolves.toBeUndefined();
  vi.stubGlobal("navigator", {});
  await expect(update.watchForUpdates()).resolves.toBeUndefined();
});
