/** Where the engine stands, for the screens to say. */
import { type Readable, writable } from "svelte/store";
import type { Why } from "./protocol.ts";

export interface EngineState {
  kind: "absent" | "fetching" | "ready_to_start" | "starting" | "running" | "cannot";
  done?: number; // [bytes], while fetching
  total?: number;
  /** Why it cannot; of an absent one: `full` (no room on the phone) or `broke_off` (the line went). */
  why?: Why | "full" | "broke_off";
}

export const state = writable<EngineState>({ kind: "absent" });
export const engineState: Readable<EngineState> = { subscribe: state.subscribe };
