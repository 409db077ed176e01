/** Which links were opened on this phone under which account: who opens one again must come back as the same person. */
import type { Readable } from "svelte/store";
import { hashOf } from "../capture/hash";
import { type Account, knownAccounts } from "./keyring";
import { live } from "./live";
import { House } from "./schema";

/** The link's secret is kept as its hash: a phone that is looked into gives no link away. */
export async function noteJoined(db: House, token: string): Promise<void> {
  await db.meta.put({ k: markOf(token), v: true });
}

/** The device that opened this link before, and whose it was. */
export async function joinedBefore(token: string): Promise<{ account: Account; device: string } | null> {
  for (const account of (await knownAccounts()).reverse()) {
    const db = new House(account);
    try {
      await db.open();
      const device = (await db.meta.get("device"))?.v;
      if ((await db.meta.get(markOf(token))) && typeof device === "string") return { account, device };
    } finally {
      db.close();
    }
  }
  return null;
}

/** Made by a link: nobody can sign in to it by name. */
export async function isLinkMade(db: House): Promise<boolean> {
  return (await db.meta.get("linkMade"))?.v === true;
}

/** The same for the screens, of the account that is open. */
export const linkMade: Readable<boolean | undefined> = live(isLinkMade);

export async function noteLinkMade(db: House, is: boolean): Promise<void> {
  if ((await isLinkMade(db)) !== is) await db.meta.put({ k: "linkMade", v: is });
}

function markOf(token: string): string {
  return `joined:${hashOf(new TextEncoder().encode(token).buffer as ArrayBuffer)}`;
}
