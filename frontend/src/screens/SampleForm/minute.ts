/** The moment it is, told anew every half minute while somebody looks: what is said of a bag changes with the hours. */
import { readable, type Readable } from "svelte/store";
import { now } from "../../db/save.ts";

const LOOK_MS = 30_000;

export const moment: Readable<string> = readable(now(), (set) => {
  set(now());
  const timer = setInterval(() => set(now()), LOOK_MS);
  return () => clearInterval(timer);
});
