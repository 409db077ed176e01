import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { contentPolicy, filesIn, versionOf } from "../build/worker";

const FILES = ["/index.html", "/assets/index-Ab12_-cd.js", "/icons/icon.svg"];
const CORE = "/engine/core-0123456789abcdef.zip";
const SITE = "https://garden.test";

/** The worker's world: its caches, the network behind it, and what the browser sends it. */
class World {
  boxes = new Map<string, Map<string, Response>>();
  fetched: string[] = [];
  broken = new Set<string>();
  skipped = 0;
  listeners = new Map<string, (event: unknown) => void>();

  caches = {
    open: async (name: string) => {
      const box = this.boxes.get(name) ?? new Map<string, Response>();
      this.boxes.set(name, box);
      return {
        addAll: (requests: Request[]) => this.fill(box, requests),
        add: (path: string) => this.fill(box, [new Request(path)]),
        match: async (path: string) => box.get(path)?.clone(),
        keys: async () => [...box.keys()].map((path) => new Request(path)),
      };
    },
    has: async (name: string) => this.boxes.has(name),
    keys: async () => [...this.boxes.keys()],
    delete: async (name: string) => this.boxes.delete(name),
    match: async (request: Request) => [...this.boxes.values()].map((box) => box.get(new URL(request.url).pathname)).find(Boolean),
  };

  async start(version: string, files = FILES) {
    vi.resetModules();
    vi.stubGlobal("__FILES__", files);
    vi.stubGlobal("__CORE__", CORE);
    vi.stubGlobal("__VERSION__", version);
    vi.stubGlobal("caches", this.caches);
    vi.stubGlobal("self", {
      location: { origin: SITE },
      clients: { claim: async () => undefined },
      skipWaiting: async () => void (this.skipped += 1),
      addEventListener: (name: string, act: (event: unknown) => void) => this.listeners.set(name, act),
    });
    vi.stubGlobal("fetch", async (request: Request) => new Response(`network ${new URL(request.url).pathname}`));
    await import("../src/sw");
  }

  async tell(name: string, more: object = {}): Promise<void> {
    let work: Promise<unknown> = Promise.resolve();
    this.listeners.get(name)!({ ...more, waitUntil: (given: Promise<unknown>) => (work = given) });
    await work;
  }

  /** What the worker answers, or null when it leaves the request to the browser. */
  async ask(path: string, request: { mode?: string; method?: string } = {}): Promise<string | null> {
    let answer: Promise<Response> | null = null;
    const asked = { url: SITE + path, method: "GET", mode: "cors", ...request };
    this.listeners.get("fetch")!({ request: asked, respondWith: (given: Promise<Response>) => (answer = given) });
    return answer && (await (await (answer as Promise<Response>)).text());
  }

  private async fill(box: Map<string, Response>, requests: Request[]): Promise<void> {
    const paths = requests.map((request) => new URL(request.url).pathname);
    if (paths.some((path) => this.broken.has(path))) throw new TypeError("one file did not come");
    for (const path of paths) box.set(path, new Response(`cached ${path}`));
  }
}

let world: World;
let folder: string;
beforeEach(() => {
  world = new World();
  folder = mkdtempSync(join(tmpdir(), "knotbed-worker-"));
  const RealRequest = globalThis.Request;
  vi.stubGlobal("Request", class extends RealRequest {
    constructor(path: string, init?: RequestInit) {
      super(new URL(path, SITE), init);
    }
  });
});
afterEach(() => {
  vi.unstubAllGlobals();
  rmSync(folder, { recursive: true });
});

test("every address of the app opens from the cached page, also one never visited", async () => {
  await world.start("one");
  await world.tell("install");
  expect(await world.ask("/beds/0199?x=1", { mode: "navigate" })).toBe("cached /index.html");
  expect(await world.ask("/icons/icon.svg")).toBe("cached /icons/icon.svg");
});

test("the API is never answered from the cache, nor is anything but a GET", async () => {
  await world.start("one");
  await world.tell("install");
  expect(await world.ask("/api/v1/me")).toBeNull();
  expect(await world.ask("/api/v1/gardens/g/sheets/bed-map.pdf", { mode: "navigate" })).toBeNull();
  expect(await world.ask("/index.html", { method: "POST" })).toBeNull();
});

test("when one file does not come the new version is not installed and the page comes from the network", async () => {
  await world.start("one");
  world.broken.add("/icons/icon.svg");
  await expect(world.tell("install")).rejects.toThrow();
  expect(await world.ask("/", { mode: "navigate" })).toBe("network /");
});

test("a new version takes over only when told, and keeps the parts of the one before it", async () => {
  for (const version of ["one", "two", "three"]) {
    await world.start(version, ["/index.html", `/assets/part-${version.padEnd(8, "x")}.js`]);
    await world.tell("install");
  }
  expect(world.skipped).toBe(0);
  await world.tell("message", { data: "SKIP_WAITING" });
  expect(world.skipped).toBe(1);
  await world.tell("activate");
  expect([...world.boxes.keys()]).toEqual(["app-two", "app-three"]);
  expect(await world.ask("/assets/part-twoxxxxx.js")).toBe("cached /assets/part-twoxxxxx.js");
  expect(await world.ask("/assets/part-onexxxxx.js")).toBe("network /assets/part-onexxxxx.js");
});

test("the engine is answered from its own cache, outlives updates, and is not part of any", async () => {
  world.boxes.set("engine", new Map([["/engine/pyodide-1/pyodide.mjs", new Response("kept engine")]]));
  for (const version of ["one", "two", "three"]) {
    await world.start(version);
    await world.tell("install");
  }
  await world.tell("activate");
  expect(await world.ask("/engine/pyodide-1/pyodide.mjs")).toBe("kept engine");
  expect(await world.ask("/engine/pyodide-1/pyodide.asm.wasm")).toBe("network /engine/pyodide-1/pyodide.asm.wasm");
  expect(world.boxes.get("engine")!.has(CORE)).toBe(false);
});

test("who has the engine gets the core of the new version with the update, or later when that fails", async () => {
  const held = new Map([["/engine/core-old.zip", new Response("old core")]]);
  world.boxes.set("engine", held);
  world.broken.add(CORE);
  await world.start("one");
  await world.tell("install");
  expect(await world.ask("/", { mode: "navigate" })).toBe("cached /index.html");
  expect([...held.keys()]).toEqual(["/engine/core-old.zip"]);
  world.broken.clear();
  await world.start("two");
  await world.tell("install");
  expect([...held.keys()]).toEqual(["/engine/core-old.zip", CORE]);
});

test("the version changes with any file and with the content policy, and with nothing else", () => {
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "page");
  writeFileSync(join(folder, "assets/a.js"), "code");
  writeFileSync(join(folder, "assets/a.js.gz"), "packed");
  const files = filesIn(folder);
  expect(files).toEqual(["/assets/a.js", "/index.html"]);
  const version = versionOf(folder, files, "policy");
  expect(versionOf(folder, files, "policy")).toBe(version);
  expect(versionOf(folder, files, "another policy")).not.toBe(version);
  writeFileSync(join(folder, "assets/a.js"), "new code");
  expect(versionOf(folder, files, "policy")).not.toBe(version);
});

test("the content policy is read where the server keeps it", () => {
  expect(contentPolicy(resolve(import.meta.dirname, "../../api/middleware.py"))).toContain("default-src 'self'");
  writeFileSync(join(folder, "empty.py"), "");
  expect(() => contentPolicy(join(folder, "empty.py"))).toThrow(/CONTENT_POLICY/);
});
