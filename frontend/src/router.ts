// Addresses: what the browser's address bar says, as a store. Every screen has one, so "back" always works.
import { readable, type Readable } from "svelte/store";

export interface Place {
  path: string;
  query: URLSearchParams;
  hash: string;
  /** Reached by "back" or "forward": the screen then stands where it was left. */
  again: boolean;
}

function here(again = false): Place {
  return { path: location.pathname, query: new URLSearchParams(location.search), hash: location.hash, again };
}

let tell: (place: Place) => void = () => {};

export const place: Readable<Place> = readable(here(), (set) => {
  tell = set;
  const moved = () => set(here(true));
  addEventListener("popstate", moved);
  return () => removeEventListener("popstate", moved);
});

/** Go to an address of this app. `replace` leaves no step behind for "back". */
export function go(address: string, how: { replace?: boolean } = {}): void {
  history[how.replace ? "replaceState" : "pushState"]({ inside: true }, "", address);
  tell(here());
}

/** Back to where the person came from, or up to `otherwise` when this screen was opened directly. */
export function back(otherwise: string): void {
  if ((history.state as { inside?: boolean } | null)?.inside) history.back();
  else go(otherwise, { replace: true });
}

/** Parts of `path` that stand where `pattern` has `:name`; null when it does not match. */
export function match(pattern: string, path: string): Record<string, string> | null {
  const want = pattern.split("/");
  const have = path.replace(/(.)\/$/, "$1").split("/");
  if (want.length !== have.length) return null;
  const found: Record<string, string> = {};
  for (const [i, part] of want.entries()) {
    const value = have[i] ?? "";
    if (part.startsWith(":")) found[part.slice(1)] = decodeURIComponent(value);
    else if (part !== value) return null;
  }
  return found;
}

function staysHere(link: HTMLAnchorElement, event: MouseEvent): boolean {
  const plain = event.button === 0 && !event.metaKey && !event.ctrlKey && !event.shiftKey && !event.altKey;
  const inside = link.origin === location.origin && !link.pathname.startsWith("/api/");
  return plain && inside && !link.target && !link.hasAttribute("download");
}

/** Plain links inside the app change the screen without loading the page again. */
export function followLinks(): void {
  document.addEventListener("click", (event) => {
    const link = (event.target as Element | null)?.closest<HTMLAnchorElement>("a[href]");
    if (!link || event.defaultPrevented || !staysHere(link, event)) return;
    if (link.hash && link.pathname === location.pathname && link.search === location.search) return;
    event.preventDefault();
    go(link.pathname + link.search + link.hash);
  });
}
