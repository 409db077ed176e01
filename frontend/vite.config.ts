import { fileURLToPath } from "node:url";
import { svelte } from "@sveltejs/vite-plugin-svelte";
import { defineConfig } from "vite";

export default defineConfig({
  plugins: [svelte()],
  resolve: { alias: { $tables: fileURLToPath(new URL("../fixtures", import.meta.url)) } },
  server: { fs: { allow: [".."] } },
  build: { outDir: "../webbuild", emptyOutDir: true, modulePreload: { polyfill: false } },
});
