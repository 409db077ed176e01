/** The phone's own id for one account. The server's merge rule trusts it, so it must not change between sign-ins. */
import { get } from "svelte/store";
import { type Account, currentHouse, house } from "./house";
import { House } from "./schema";
import { uuidv7 } from "uuidv7";

export async function deviceOf(account: Account): Promise<string> {
  const open = get(house);
  if (open?.account.id === account.id) return readDevice(open);
  const db = new House(account);
  try {
    return await readDevice(db);
  } finally {
    db.close();
  }
}

export function thisDevice(): Promise<string> {
  return readDevice(currentHouse());
}

async function readDevice(db: House): Promise<string> {
  return ((await db.meta.get("device"))?.v as string | undefined) ?? uuidv7();
}
