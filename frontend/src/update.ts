/** A new version waits until the person says so; a form is never lost to a reload. */
import { type Readable, writable } from "svelte/store";

const waitingStore = writable(false);
export const newVersion: Readable<boolean> = { subscribe: waitingStore.subscribe };

const HOUR_MS = 3_600_000;
let waitingWorker: ServiceWorker | null = null;

/** Registers the worker. On a plain-http address there is none to register: the app then works while its tab is open. */
export async function watchForUpdates(): Promise<void> {
  if (!("serviceWorker" in navigator)) return;
  let registration: ServiceWorkerRegistration;
  try {
    registration = await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" });
  } catch {
    return; // not a secure address, or a private window: the page itself needs no worker
  }
  if (registration.waiting) offer(registration.waiting);
  registration.addEventListener("updatefound", () => {
    const fresh = registration.installing;
    fresh?.addEventListener("statechange", () => {
      if (fresh.state === "installed" && navigator.serviceWorker.controller) offer(fresh);
    });
  });
  const look = () => void registration.update().catch(() => undefined);
  setInterval(look, HOUR_MS);
  document.addEventListener("visibilitychange", () => document.visibilityState === "visible" && look());
}

/** Called from the button of the prompt only. */
export function applyUpdate(): void {
  if (!waitingWorker) return;
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  waitingWorker.postMessage("SKIP_WAITING");
}

function offer(worker: ServiceWorker): void {
  waitingWorker = worker;
  waitingStore.set(true);
}
