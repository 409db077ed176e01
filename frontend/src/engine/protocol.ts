/** What the page and the worker say to each other. */
export type Asked = { index: string; archive: ArrayBuffer } | { id: number; name: string; args: string };
export type Told =
  | { kind: "running" }
  | { kind: "cannot"; why: Why; detail?: string }
  | { kind: "answer"; id: number; as: string; bytes: Uint8Array<ArrayBuffer> }
  | { kind: "failed"; id: number; detail: string };

/**
 * `refused`: this browser does not run WebAssembly. `insecure`: it keeps nothing on a plain http address. `slow`: it did
 * not start in time. `broken`: it started and failed.
 */
export type Why = "refused" | "insecure" | "slow" | "broken";
