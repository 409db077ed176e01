/** The packed Python core under Pyodide in Node, and the same core under the project's own Python. */
import { execFileSync } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { loadPyodide, type PyodideAPI } from "pyodide";
import { packCore, python } from "../../build/engine";

export const ROOT = resolve(import.meta.dirname, "../../..");
type Desk = (name: string, args: string) => { toJs(): [string, Uint8Array]; destroy(): void };

export async function startCore(): Promise<PyodideAPI> {
  const core = await loadPyodide({ indexURL: join(ROOT, "frontend/node_modules/pyodide/") });
  core.unpackArchive(new Uint8Array(packCore(ROOT).content), "zip", { extractDir: "/engine" });
  core.runPython("import sys; sys.path.insert(0, '/engine')");
  return core;
}

export function askHere(core: PyodideAPI, name: string, args: object): [string, Buffer] {
  const desk = (core.pyimport("phone_desk") as { ask: Desk }).ask;
  const [as, bytes] = desk(name, JSON.stringify(args)).toJs();
  return [as, Buffer.from(bytes)];
}

const ASK = `import json, pathlib, sys
from gardens.sheets import desk
tables = {p.stem: json.loads(p.read_text()) for p in pathlib.Path("fixtures").glob("*.json")}
name, args = json.load(sys.stdin)
found = desk.answer(name, args, tables)
sys.stdout.buffer.write(found if isinstance(found, bytes) else json.dumps(found, ensure_ascii=False).encode())`;

/** What the server's Python answers to the same question. */
export function askServersPython(name: string, args: object): Buffer {
  return runServersPython(ASK, JSON.stringify([name, args]));
}

export function runServersPython(code: string, input = ""): Buffer {
  return execFileSync(python(ROOT), ["-c", code], { cwd: ROOT, input, maxBuffer: 64e6 });
}

/** Put a file of the project where the core's own files lie. */
export function lend(core: PyodideAPI, path: string): void {
  core.FS.mkdirTree(`/engine/${path.replace(/\/[^/]+$/, "")}`);
  core.FS.writeFile(`/engine/${path}`, readFileSync(join(ROOT, path)));
}

export function jsonIn(folder: string): string[] {
  return readdirSync(join(ROOT, folder)).filter((name) => name.endsWith(".json")).map((name) => `${folder}/${name}`);
}

export interface Demo {
  garden: string;
  records: { id: string; kind: string; deleted: boolean; doc: Record<string, unknown> }[];
}

/** The demo garden as it travels. */
export function demoGarden(): Demo {
  const { garden, mutations } = JSON.parse(readFileSync(join(ROOT, "fixtures/demo/garden.json"), "utf8"));
  const records = mutations.map(({ id, kind, set }: { id: string; kind: string; set: object }) => ({ id, kind, deleted: false, doc: set }));
  return { garden, records };
}
