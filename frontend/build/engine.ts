/** Vite plugin: puts Pyodide, the packed Python core and what draws pages of PDFs into `engine/`, and tells the app which files those are. */
import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { gzipSync } from "node:zlib";
import type { Plugin } from "vite";

/** What the phone has to hold before the core can run there. The archive is last: whoever has it has them all. */
export interface EngineFiles {
  index: string; // folder of Pyodide
  pages: string; // folder of what draws PDFs
  archive: string;
  files: { path: string; bytes: number; wire: number }[];
}

const ASKED = "virtual:engine-files";
const PYODIDE = ["pyodide.mjs", "pyodide.asm.mjs", "pyodide-lock.json", "python_stdlib.zip", "pyodide.asm.wasm"];

/** For phones a few years old: with what their browsers lack. */
const PDFJS = ["legacy/build/pdf.min.mjs", "legacy/build/pdf.worker.min.mjs"];

interface Part {
  path: string;
  content: Buffer;
  packed: Buffer | null;
}

export function engine(project: string): Plugin {
  let parts: Part[] | undefined;
  const modules = join(project, "frontend/node_modules");
  const made = () => (parts ??= [...packageParts(modules, "pyodide", PYODIDE), ...packageParts(modules, "pdfjs-dist", PDFJS), archivePart(project)]);
  return {
    name: "knotbed-engine",
    resolveId: (id) => (id === ASKED ? `\0${ASKED}` : null),
    load: (id) => (id === `\0${ASKED}` ? `export default ${JSON.stringify(listed(made()))};` : null),
    generateBundle() {
      for (const { path, content, packed } of made()) {
        this.emitFile({ type: "asset", fileName: path.slice(1), source: content });
        if (packed) this.emitFile({ type: "asset", fileName: `${path.slice(1)}.gz`, source: packed });
      }
    },
  };
}

function listed(parts: Part[]): EngineFiles {
  const archive = parts.at(-1)!.path;
  const folderOf = (name: string) => parts.find(({ path }) => path.startsWith(`/engine/${name}-`))!.path.replace(/[^/]+$/, "");
  const files = parts.map(({ path, content, packed }) => ({ path, bytes: content.length, wire: (packed ?? content).length }));
  return { index: folderOf("pyodide"), pages: folderOf("pdfjs-dist"), archive, files };
}

function packageParts(modules: string, name: string, files: string[]): Part[] {
  const folder = join(modules, name);
  const { version } = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as { version: string };
  return files.map((file) => {
    const content = readFileSync(join(folder, file));
    return { path: `/engine/${name}-${version}/${basename(file)}`, content, packed: file.endsWith(".zip") ? null : gzipSync(content, { level: 9 }) };
  });
}

function archivePart(project: string): Part {
  const { hash, content } = packCore(project);
  return { path: `/engine/core-${hash.slice(0, 16)}.zip`, content, packed: null };
}

/** Run by the Python whose packages the server prints with, so that both print alike. */
export function packCore(project: string): { hash: string; content: Buffer } {
  const folder = mkdtempSync(join(tmpdir(), "knotbed-engine-"));
  const zip = join(folder, "core.zip");
  try {
    const packing = [join(project, "frontend/build/pack_engine.py"), project, zip];
    const hash = execFileSync(python(project), packing, { encoding: "utf8", stdio: ["ignore", "pipe", "inherit"] }).trim();
    return { hash, content: readFileSync(zip) };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

export function python(project: string): string {
  const own = process.platform === "win32" ? ".venv/Scripts/python.exe" : ".venv/bin/python";
  return process.env["KNOTBED_ENGINE_PYTHON"] ?? join(project, own);
}
