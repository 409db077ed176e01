/** A Svelte store over a database query: first undefined, then a new value after every commit that touches what was read. */
import { liveQuery } from "dexie";
import { readable, type Readable } from "svelte/store";
import { house } from "./house";
import type { House } from "./schema";

const RETRY_MS = 500;

export function live<T>(query: (db: House) => Promise<T>): Readable<T | undefined> {
  return readable<T | undefined>(undefined, (set) => {
    let stopQuery = () => {};
    let timer: ReturnType<typeof setTimeout> | undefined;
    const follow = (db: House) => {
      const watch = liveQuery(() => query(db)).subscribe({
        next: set,
        // A connection that died while the phone slept: ask again, the next save reopens it.
        error: () => (timer = setTimeout(() => follow(db), RETRY_MS)),
      });
      stopQuery = () => watch.unsubscribe();
    };
    const stopHouse = house.subscribe((db) => {
      stopQuery();
      clearTimeout(timer);
      if (db) follow(db);
      else set(undefined);
    });
    return () => {
      stopHouse();
      stopQuery();
      clearTimeout(timer);
      set(undefined); // whoever looks next must not see an old answer, least of all another account's
    };
  });
}
