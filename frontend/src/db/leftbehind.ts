/** What signed-out accounts still hold on this phone: counted, and saved to a file, without opening their house to the screens. */
import { saveAllToFile } from "./export";
import { type Account, knownAccounts } from "./keyring";
import { House } from "./schema";

export interface LeftBehind {
  account: Account;
  n: number;
  save: () => Promise<Blob>;
}

/** Accounts with entries or photos that have not reached the server. */
export async function leftBehind(): Promise<LeftBehind[]> {
  const found = await Promise.all((await knownAccounts()).map(async (account) => ({ account, n: await within(account, count) })));
  return found.filter(({ n }) => n > 0).map((one) => ({ ...one, save: () => within(one.account, saveAllToFile) }));
}

async function count(db: House): Promise<number> {
  const changes = await db.outbox.where("st").anyOf("new", "parked").count();
  return changes + (await db.blobs.where("st").anyOf("waiting", "parked").count());
}

async function within<T>(account: Account, work: (db: House) => Promise<T>): Promise<T> {
  const db = new House(account);
  try {
    await db.open();
    return await work(db);
  } finally {
    db.close();
  }
}
