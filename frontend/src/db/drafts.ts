/** Half-filled forms, kept before anything that may kill the page (the camera above all). */
import { currentHouse, inHouse } from "./house";
import { storable } from "./text";

export async function keep(key: string, value: unknown): Promise<void> {
  await inHouse(["drafts"], (db) => db.drafts.put({ k: key, v: storable(value) }));
}

export async function recall<T>(key: string): Promise<T | undefined> {
  return (await currentHouse().drafts.get(key))?.v as T | undefined;
}

export async function forget(key: string): Promise<void> {
  await inHouse(["drafts"], (db) => db.drafts.delete(key));
}
