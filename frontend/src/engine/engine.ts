/** The Python core on this phone: asked like the server, when the server cannot be. */
import { get, type Readable } from "svelte/store";
import { canKeep, fetchMissing, isCostly, isHere, WIRE_BYTES } from "../sync/enginefiles.ts";
import { call, NoEngine } from "./line.ts";
import { engineState, state } from "./state.ts";

export { engineState, NoEngine, WIRE_BYTES };
export { NotDrawn, openPages, type Pages } from "./pages.ts";
export type { EngineState } from "./state.ts";

const QUIET_MS = 4_000;

/** The core will not do what it was asked; `code` is one of its own, e.g. `sheet_mixed`. */
export class EngineProblem extends Error {
  constructor(
    readonly code: string,
    readonly params: Record<string, unknown>,
  ) {
    super(code);
    this.name = "EngineProblem";
  }
}

export type Question =
  | "briefing"
  | "ask"
  | "submission_sheet"
  | "submission_blanks"
  | "bed_map"
  | "rating_form"
  | "labels"
  | "label_sheets"
  | "packing_slip"
  | "pots_sheet"
  | "form_fields"
  | "lab_form";

/** A PDF comes as a Blob, everything else as the JSON it is. Throws EngineProblem, or NoEngine: see `engineState` then. */
export async function ask<T>(name: Question, args: object): Promise<T> {
  if (!["ready_to_start", "starting", "running"].includes((await look()).kind)) throw new NoEngine("not here");
  const { as, bytes } = await call(name, args);
  if (as === "pdf") return new Blob([bytes], { type: "application/pdf" }) as T;
  const said = JSON.parse(new TextDecoder().decode(bytes)) as T;
  if (as !== "problem") return said;
  const { code, params } = said as { code: string; params: Record<string, unknown> };
  throw new EngineProblem(code, params);
}

/** Looks whether the engine is on this phone. */
export async function look() {
  if (get(state).kind !== "absent") return get(state);
  if (typeof WebAssembly === "undefined") state.set({ kind: "cannot", why: "refused" });
  else if (!canKeep()) state.set({ kind: "cannot", why: "insecure" });
  else if (await isHere()) state.set({ kind: "ready_to_start" });
  return get(state);
}

/** Fetches it now, whatever the line costs: a person asked. */
export async function fetchEngine(): Promise<void> {
  if ((await look()).kind !== "absent") return;
  state.set({ kind: "fetching", done: 0, total: 1 });
  try {
    await fetchMissing((progress) => state.set({ kind: "fetching", ...progress }));
    state.set({ kind: "ready_to_start" });
  } catch (error) {
    const full = (error as Error).name === "QuotaExceededError";
    state.set({ kind: "absent", why: full ? "full" : "broke_off" });
  }
}

/** After a start that failed: the next question tries once more. */
export function tryAgain(): void {
  state.set({ kind: "absent" });
  void look();
}

/** Fetches it in the background each time everything is sent and the line is quiet, until it is here. */
export function keepEngine(status: Readable<{ kind: string }>): () => void {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const stop = status.subscribe(({ kind }) => {
    clearTimeout(timer);
    if (kind === "allsent") timer = setTimeout(() => void quietly(), QUIET_MS);
  });
  void look();
  return () => {
    clearTimeout(timer);
    stop();
  };
}

/** Only once the app itself is kept by its service worker: the shell comes first. */
async function quietly(): Promise<void> {
  if (isCostly() || !navigator.serviceWorker?.controller || get(state).why === "full") return;
  await fetchEngine();
}
