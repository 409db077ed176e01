import { get, writable } from "svelte/store";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { Asked, Told } from "../../src/engine/protocol";

const FILES = vi.hoisted(() => ({
  index: "/engine/pyodide-1/",
  archive: "/engine/core-1.zip",
  files: [
    { path: "/engine/pyodide-1/pyodide.mjs", bytes: 30, wire: 10 },
    { path: "/engine/core-1.zip", bytes: 10, wire: 10 },
  ],
}));
vi.mock("virtual:engine-files", () => ({ default: FILES }));

/** A worker that does what a test tells it to. */
class FakeWorker {
  static all: FakeWorker[] = [];
  static starts: Told | "nothing" = { kind: "running" };
  onmessage: (event: { data: Told }) => void = () => {};
  onerror = () => {};
  ended = false;
  asked: Asked[] = [];
  constructor() {
    FakeWorker.all.push(this);
  }
  postMessage(asked: Asked): void {
    this.asked.push(asked);
    const told: Told | "nothing" = "archive" in asked ? FakeWorker.starts : answers(asked);
    if (told !== "nothing") queueMicrotask(() => this.onmessage({ data: told }));
  }
  terminate(): void {
    this.ended = true;
  }
}

function answers({ id, name }: Extract<Asked, { id: number }>): Told | "nothing" {
  if (name === "bed_map") return "nothing";
  const said = { briefing: ["json", '{"beds":[]}'], submission_sheet: ["pdf", "%PDF"], rating_form: ["problem", '{"code":"not_found","params":{"id":"x"}}'] };
  const [as, text] = said[name as keyof typeof said] as [string, string];
  return { kind: "answer", id, as, bytes: new TextEncoder().encode(text) };
}

let box: Map<string, Response>;
let network: (path: string) => Promise<Response>;
let engine: typeof import("../../src/engine/engine");

beforeEach(async () => {
  vi.useFakeTimers();
  vi.resetModules();
  box = new Map();
  network = async (path) => new Response(new Uint8Array(FILES.files.find((file) => file.path === path)!.bytes));
  FakeWorker.all = [];
  FakeWorker.starts = { kind: "running" };
  vi.stubGlobal("Worker", FakeWorker);
  vi.stubGlobal("location", { href: "https://garden.test/print" });
  vi.stubGlobal("fetch", (path: string) => network(path));
  vi.stubGlobal("navigator", { serviceWorker: { controller: {} } });
  vi.stubGlobal("caches", {
    open: async () => ({
      match: async (path: string) => box.get(path)?.clone(),
      put: async (path: string, answer: Response) => void box.set(path, answer),
      keys: async () => [...box.keys()].map((path) => ({ url: `https://garden.test${path}` })),
      delete: async ({ url }: { url: string }) => box.delete(new URL(url).pathname),
    }),
  });
  engine = await import("../../src/engine/engine");
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});
const kind = () => get(engine.engineState).kind;

test("before it is fetched a question is answered with: not here", async () => {
  await expect(engine.ask("briefing", {})).rejects.toBeInstanceOf(engine.NoEngine);
  expect(kind()).toBe("absent");
  expect(FakeWorker.all).toEqual([]);
});

test("fetching tells how far it is, and what is no longer needed goes", async () => {
  box.set("/engine/core-0.zip", new Response("old"));
  const told: number[] = [];
  engine.engineState.subscribe(({ done }) => done && told.push(done));
  await engine.fetchEngine();
  expect(told).toEqual([30, 40]);
  expect(kind()).toBe("ready_to_start");
  expect([...box.keys()]).toEqual(FILES.files.map(({ path }) => path));
});

test("a line that breaks keeps what came; the next time fetches only the rest", async () => {
  const working = network;
  network = async (path) => (path.includes("core") ? Promise.reject(new TypeError("gone")) : working(path));
  await engine.fetchEngine();
  expect(get(engine.engineState)).toEqual({ kind: "absent", why: "broke_off" });
  const fetched: string[] = [];
  network = async (path) => (fetched.push(path), working(path));
  await engine.fetchEngine();
  expect(fetched).toEqual(["/engine/core-1.zip"]);
  expect(kind()).toBe("ready_to_start");
});

test("a phone without room says so and does not try again by itself", async () => {
  network = async () => Promise.reject(new DOMException("no room", "QuotaExceededError"));
  await engine.fetchEngine();
  expect(get(engine.engineState)).toEqual({ kind: "absent", why: "full" });
  let asked = 0;
  network = async () => (asked++, new Response());
  engine.keepEngine(writable({ kind: "allsent" }));
  await vi.advanceTimersByTimeAsync(60_000);
  expect(asked).toBe(0);
});

test("it comes by itself when everything is sent, and not while something waits", async () => {
  const status = writable({ kind: "waiting" });
  engine.keepEngine(status);
  await vi.advanceTimersByTimeAsync(60_000);
  expect(kind()).toBe("absent");
  status.set({ kind: "allsent" });
  await vi.advanceTimersByTimeAsync(60_000);
  expect(kind()).toBe("ready_to_start");
});

test.each([{ saveData: true }, { type: "cellular" }])("on a line that costs (%o) it comes only when asked for", async (connection) => {
  vi.stubGlobal("navigator", { serviceWorker: { controller: {} }, connection });
  engine.keepEngine(writable({ kind: "allsent" }));
  await vi.advanceTimersByTimeAsync(60_000);
  expect(kind()).toBe("absent");
  await engine.fetchEngine();
  expect(kind()).toBe("ready_to_start");
});

test("answers come as JSON, papers as PDF, refusals as codes", async () => {
  await engine.fetchEngine();
  expect(await engine.ask("briefing", {})).toEqual({ beds: [] });
  expect((await engine.ask<Blob>("submission_sheet", {})).type).toBe("application/pdf");
  await expect(engine.ask("rating_form", {})).rejects.toMatchObject({ code: "not_found", params: { id: "x" } });
  expect(FakeWorker.all.length).toBe(1);
});

test("after minutes without a question its memory is given back, and the next question starts it anew", async () => {
  await engine.fetchEngine();
  await engine.ask("briefing", {});
  await vi.advanceTimersByTimeAsync(300_000);
  expect([FakeWorker.all[0]!.ended, kind()]).toEqual([true, "ready_to_start"]);
  await engine.ask("briefing", {});
  expect([FakeWorker.all.length, kind()]).toEqual([2, "running"]);
});

test("a start that never ends is ended, said, and can be tried again", async () => {
  await engine.fetchEngine();
  FakeWorker.starts = "nothing";
  const asked = expect(engine.ask("briefing", {})).rejects.toBeInstanceOf(engine.NoEngine);
  await vi.advanceTimersByTimeAsync(90_000);
  await asked;
  expect(get(engine.engineState)).toEqual({ kind: "cannot", why: "slow" });
  expect(FakeWorker.all[0]!.ended).toBe(true);
  FakeWorker.starts = { kind: "running" };
  engine.tryAgain();
  await vi.advanceTimersByTimeAsync(0);
  expect(await engine.ask("briefing", {})).toEqual({ beds: [] });
});

test("a question that is never answered ends the worker and tells whoever asked", async () => {
  await engine.fetchEngine();
  const asked = expect(engine.ask("bed_map", {})).rejects.toBeInstanceOf(engine.NoEngine);
  await vi.advanceTimersByTimeAsync(120_000);
  await asked;
  expect([FakeWorker.all[0]!.ended, kind()]).toEqual([true, "ready_to_start"]);
});

test("a browser that refuses WebAssembly is believed at once", async () => {
  await engine.fetchEngine();
  FakeWorker.starts = { kind: "cannot", why: "refused" };
  await expect(engine.ask("briefing", {})).rejects.toBeInstanceOf(engine.NoEngine);
  expect(get(engine.engineState)).toEqual({ kind: "cannot", why: "refused" });
});

test("on a plain http address there is no place to keep it", async () => {
  vi.stubGlobal("caches", undefined);
  await engine.fetchEngine();
  expect(get(engine.engineState)).toEqual({ kind: "cannot", why: "insecure" });
});
