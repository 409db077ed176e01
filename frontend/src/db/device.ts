/** The phone's own id for one account. The server's merge rule trusts it, so it must not change between sign-ins. */
import { get } from "svelte/store";
import { house } from "./house";
import type { Account } from "./keyring";
import { House } from "./schema";

/** Null: the account has never been on this phone. */
export async function deviceOf(account: Account): Promise<string | null> {
  const open = get(house);
  if (open?.account.id === account.id) return readDevice(open);
  const db = new House(account);
  try {
    return await readDevice(db);
  } finally {
    db.close();
  }
}

export async function thisDevice(db: House): Promise<string> {
  return (await readDevice(db)) ?? "";
}

async function readDevice(db: House): Promise<string | null> {
  return ((await db.meta.get("device"))?.v as string | undefined) ?? null;
}
