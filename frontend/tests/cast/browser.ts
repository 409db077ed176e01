/** The bits of a browser that the phone's code touches, for vitest under node. */
import "fake-indexeddb/auto";

const kept = new Map<string, string>();
const localStorage = {
  getItem: (key: string) => kept.get(key) ?? null,
  setItem: (key: string, value: string) => void kept.set(key, value),
  removeItem: (key: string) => void kept.delete(key),
  clear: () => kept.clear(),
};

/** One lock per name, as navigator.locks gives with ifAvailable. */
const held = new Set<string>();
const locks = {
  async request(name: string, _options: unknown, work: (lock: object | null) => unknown) {
    if (held.has(name)) return work(null);
    held.add(name);
    try {
      return await work({ name });
    } finally {
      held.delete(name);
    }
  },
};

Object.defineProperty(globalThis, "localStorage", { value: localStorage, configurable: true });
Object.defineProperty(globalThis, "navigator", { value: { userAgent: "Android", locks }, configurable: true });

const page = new EventTarget();
Object.defineProperty(globalThis, "document", {
  value: Object.assign(new EventTarget(), { visibilityState: "visible" }),
  configurable: true,
});
for (const name of ["addEventListener", "removeEventListener", "dispatchEvent"] as const) {
  Object.defineProperty(globalThis, name, { value: page[name].bind(page), configurable: true });
}
