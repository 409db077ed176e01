/** The bits of a browser that the phone's code touches, for vitest under node. */
import "fake-indexeddb/auto";

const kept = new Map<string, string>();
const localStorage = {
  getItem: (key: string) => kept.get(key) ?? null,
  setItem: (key: string, value: string) => void kept.set(key, value),
  removeItem: (key: string) => void kept.delete(key),
  clear: () => kept.clear(),
};

/** One lock per name, as navigator.locks gives: at once or not at all with ifAvailable, else in line. */
type Work = (lock: object | null) => unknown;
const lines = new Map<string, Promise<unknown>>();
const held = new Set<string>();
const locks = {
  async request(name: string, ...rest: [Work] | [{ ifAvailable?: boolean }, Work]) {
    const work = rest.at(-1) as Work;
    const now = rest.length === 2 && rest[0].ifAvailable === true;
    if (now && held.has(name)) return work(null);
    const before = lines.get(name);
    held.add(name);
    const done = (async () => {
      await before;
      return work({ name });
    })();
    const end = done.then(() => undefined, () => undefined);
    lines.set(name, end);
    void end.then(() => lines.get(name) === end && held.delete(name));
    return done;
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
