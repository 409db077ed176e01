/** Runs the Python core on the phone, away from the screen. Knows nothing of its questions. */
import type { PyodideAPI } from "pyodide";
import type { Asked, Told } from "./protocol.ts";

type Desk = (name: string, args: string) => { toJs(): [string, Uint8Array<ArrayBuffer>]; destroy(): void };

const EMPTY_WASM = new Uint8Array([0, 0x61, 0x73, 0x6d, 1, 0, 0, 0]);
let desk: Desk | null = null;

self.onmessage = ({ data }: MessageEvent<Asked>) => {
  if ("archive" in data) void start(data.index, data.archive);
  else answer(data.id, data.name, data.args);
};

async function start(index: string, archive: ArrayBuffer): Promise<void> {
  if (!(await mayRun())) return tell({ kind: "cannot", why: "refused" });
  try {
    const { loadPyodide } = (await import(/* @vite-ignore */ `${index}pyodide.mjs`)) as typeof import("pyodide");
    const python: PyodideAPI = await loadPyodide({ indexURL: index });
    python.unpackArchive(new Uint8Array(archive), "zip", { extractDir: "/engine" });
    python.runPython("import sys; sys.path.insert(0, '/engine')");
    desk = (python.pyimport("phone_desk") as { ask: Desk }).ask;
    tell({ kind: "running" });
  } catch (error) {
    tell({ kind: "cannot", why: "broken", detail: String(error) });
  }
}

/** Pyodide waits for ever where WebAssembly is forbidden, so try the smallest program first. */
async function mayRun(): Promise<boolean> {
  try {
    await WebAssembly.instantiate(EMPTY_WASM);
    return true;
  } catch {
    return false; // forbidden by the page's policy, or switched off in the phone's settings
  }
}

function answer(id: number, name: string, args: string): void {
  try {
    const found = desk!(name, args);
    const [as, bytes] = found.toJs();
    found.destroy();
    tell({ kind: "answer", id, as, bytes }, [bytes.buffer]);
  } catch (error) {
    tell({ kind: "failed", id, detail: String(error) });
  }
}

function tell(told: Told, owned: Transferable[] = []): void {
  self.postMessage(told, { transfer: owned });
}
