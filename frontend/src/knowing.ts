/** What a screen shows of the briefing: the last one, at once. */
import { readable, type Readable } from "svelte/store";
import { type Last, lastBriefing } from "./db/briefing.ts";

/** `working`: being worked out here. `absent`, `cannot`: this phone cannot yet, or cannot at all. */
export interface Known {
  last: Last | null | undefined;
  here: "" | "working" | "absent" | "cannot";
}

export function known(garden: string): Readable<Known> {
  return readable<Known>({ last: undefined, here: "" }, (set) => lastBriefing(garden).subscribe((last) => set({ last, here: "" })));
}
