/** The browser's own offer to install the app: it comes once, early, and is kept until a person asks for it. */
import { type Readable, writable } from "svelte/store";

interface InstallOffer extends Event {
  prompt(): Promise<unknown>;
}

const offerStore = writable<InstallOffer | null>(null);
export const installOffer: Readable<{ prompt(): Promise<unknown> } | null> = { subscribe: offerStore.subscribe };

/** Call at start: the offer is not repeated for a listener that comes later. */
export function watchForInstall(): void {
  addEventListener("beforeinstallprompt", (event) => {
    event.preventDefault();
    offerStore.set(event as InstallOffer);
  });
  addEventListener("appinstalled", () => offerStore.set(null));
}

/** True when this page runs as an installed app. */
export function runsInstalled(): boolean {
  return matchMedia("(display-mode: standalone)").matches || (navigator as { standalone?: boolean }).standalone === true;
}
