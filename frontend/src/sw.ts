/** Serves the app's own files without a signal. Never answers for the API: records live in IndexedDB only. */
export {}; // a module, so that its own `self` may stand beside the page's

declare const self: ServiceWorkerGlobalScope;
declare const __FILES__: string[]; // every file of this build, put in by build/worker.ts
declare const __CORE__: string; // address of the packed Python core, which is not one of them
declare const __VERSION__: string;

const FILES = __FILES__;
const PREFIX = "app-";
const CACHE = PREFIX + __VERSION__;
const HASHED = /^\/assets\/.+-[\w-]{8}\.\w+$/;
/** The Python core and what runs it: fetched by the page when it suits, kept over updates. */
const ENGINE = "engine";
const ENGINE_FILE = /^\/engine\//;
const NOT_OURS = /^\/(api|admin|static|media)\//;

self.addEventListener("install", (event) => {
  // All or nothing: when one file fails the old version stays, and the page in the network is not touched.
  event.waitUntil(fill().then(() => renewCore().catch(() => undefined)));
});

self.addEventListener("activate", (event) => {
  event.waitUntil(tidy().then(() => self.clients.claim()));
});

self.addEventListener("message", (event) => {
  // The page sends this when a person has pressed "update", never by itself.
  if (event.data === "SKIP_WAITING") void self.skipWaiting();
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== self.location.origin || NOT_OURS.test(url.pathname)) return;
  if (request.mode === "navigate") event.respondWith(serve("/index.html", request));
  else if (FILES.includes(url.pathname)) event.respondWith(serve(url.pathname, request));
  else if (HASHED.test(url.pathname) || ENGINE_FILE.test(url.pathname)) event.respondWith(fromAnyVersion(request));
});

async function fill(): Promise<void> {
  const cache = await caches.open(CACHE);
  await cache.addAll(FILES.map((path) => new Request(path, { cache: HASHED.test(path) ? "default" : "reload" })));
}

/** Whoever has the engine must not lose it by updating in a bed without a signal. */
async function renewCore(): Promise<void> {
  if (!(await caches.has(ENGINE))) return;
  const engine = await caches.open(ENGINE);
  const held = (await engine.keys()).map((request) => new URL(request.url).pathname);
  if (held.some((path) => path.startsWith("/engine/core-")) && !held.includes(__CORE__)) await engine.add(__CORE__);
}

/** Keeps the version before this one: a second tab may still run it and ask for one of its parts. */
async function tidy(): Promise<void> {
  const old = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(old.slice(0, -1).map((name) => caches.delete(name)));
}

async function serve(path: string, request: Request): Promise<Response> {
  const cache = await caches.open(CACHE);
  return (await cache.match(path)) ?? fetch(request);
}

async function fromAnyVersion(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request);
}
