/** Vite plugin: builds src/sw.ts last, with the list of all files and a version made from what they contain. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve, sep } from "node:path";
import { build, type Plugin, type ResolvedConfig } from "vite";

const POLICY = /^CONTENT_POLICY = \(\n([^)]*)\n\)/m;

export function worker(policyFile: string): Plugin {
  let config: ResolvedConfig;
  return {
    name: "knotbed-worker",
    apply: "build",
    configResolved(resolved) {
      config = resolved;
    },
    async closeBundle(error?: Error) {
      if (error) return;
      const out = resolve(config.root, config.build.outDir);
      const built = filesIn(out);
      const files = built.filter((path) => path !== "/sw.js" && !path.startsWith("/engine/"));
      const core = built.find((path) => path.startsWith("/engine/core-")) ?? "";
      const version = versionOf(out, files, contentPolicy(policyFile));
      await buildWorker(config.root, out, { __FILES__: files, __CORE__: core, __VERSION__: version });
    },
  };
}

/** A cached page keeps the headers it came with, so a changed policy must be a new version. */
export function contentPolicy(file: string): string {
  const policy = POLICY.exec(readFileSync(file, "utf8"))?.[1];
  if (!policy) throw new Error(`no CONTENT_POLICY found in ${file}: the worker's version must depend on it`);
  return policy;
}

export function versionOf(out: string, files: string[], policy: string): string {
  const hash = createHash("sha256").update(policy);
  for (const path of files) hash.update(path).update(readFileSync(join(out, path)));
  return hash.digest("hex").slice(0, 16);
}

export function filesIn(out: string): string[] {
  return readdirSync(out, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && !/\.(gz|br|map)$/.test(entry.name))
    .map((entry) => `/${relative(out, join(entry.parentPath, entry.name)).split(sep).join("/")}`)
    .sort();
}

async function buildWorker(root: string, out: string, known: Record<string, unknown>): Promise<void> {
  await build({
    root,
    configFile: false,
    publicDir: false,
    logLevel: "warn",
    define: Object.fromEntries(Object.entries(known).map(([name, value]) => [name, JSON.stringify(value)])),
    build: {
      outDir: out,
      emptyOutDir: false,
      rolldownOptions: { input: join(root, "src/sw.ts"), output: { format: "iife", entryFileNames: "sw.js" } },
    },
  });
}
