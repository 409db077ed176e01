/// <reference types="vitest/config" />
import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";
import { engine } from "./build/engine.ts";
import { worker } from "./build/worker.ts";

const here = (path: string) => fileURLToPath(new URL(path, import.meta.url));

export default defineConfig({
  plugins: [svelte(), engine(here("..")), worker(here("../api/middleware.py"))],
  resolve: { alias: { $tables: here("../fixtures") } },
  worker: { format: "es" },
  server: { fs: { allow: [".."] } },
  // Waiting is not what these tests measure: a busy machine may take a while, a hang still ends.
  test: { testTimeout: 60_000, hookTimeout: 60_000, include: ["tests/**/*.test.ts"], setupFiles: ["tests/cast/browser.ts"], env: { TZ: "UTC" } },
  build: { outDir: "../webbuild", emptyOutDir: true, modulePreload: { polyfill: false } },
});
