/** Signing in and out. The phone keeps one device id per account, in that account's database. */
import { get } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { knownAccounts, leaveHouse, openHouse, session } from "../db/house";
import { counts } from "../db/outbox";
import { deviceOf } from "../db/device";
import { gardensHere } from "../db/feed";
import { currentGarden } from "../db/read";
import { postJson, unsafe, useCsrf } from "./api";
import { syncNow } from "./loop";
import { line } from "./status";
import type { Pairing, Session } from "./wire";

const FETCH_MS = 15_000;

export async function signIn(username: string, password: string): Promise<void> {
  const known = knownAccounts().findLast((account) => account.username === username);
  const device = known ? await deviceOf(known) : uuidv7();
  await enter(await postJson<Session>("/login", { username, password, device, device_name: deviceName() }));
}

export async function pairWith(token: string): Promise<void> {
  const remembered = get(session).account;
  const device = remembered ? await deviceOf(remembered) : uuidv7();
  await enter(await postJson<Session>("/pair", { token, device, device_name: deviceName() }));
}

export function newPairing(): Promise<Pairing> {
  return postJson("/pairings", {});
}

/** What would stay behind on this phone: show it before signing out. */
export function leftOnPhone(): Promise<{ items: number; photos: number }> {
  return new Promise((resolve) => {
    const stop = counts.subscribe(($counts) => {
      if (!$counts) return;
      queueMicrotask(() => stop());
      resolve({ items: $counts.waiting + $counts.parked, photos: $counts.photos });
    });
  });
}

/** Ends the server's session if it can be reached; the account's database and its outbox stay on the phone either way. */
export async function signOut(): Promise<void> {
  await unsafe("POST", "/logout").catch(() => undefined);
  useCsrf(null);
  leaveHouse();
  currentGarden.set(null);
  line.set({ state: "idle" });
}

async function enter({ account, csrf, device }: Session): Promise<void> {
  useCsrf(csrf);
  if (get(session).account?.id !== account.id) currentGarden.set(null);
  await openHouse(account, device);
  line.set({ state: "idle" });
  syncNow();
  await firstGarden();
}

/** A new phone first fetches its garden: a screen that finds none would ask the person to make a second one. */
async function firstGarden(): Promise<void> {
  if ((await gardensHere()).length > 0) return;
  await new Promise<void>((resolve) => {
    const limit = setTimeout(done, FETCH_MS); // another tab may do the fetching, and say nothing
    const stop = line.subscribe(({ state }) => {
      if (state !== "idle" && state !== "sending") done();
    });
    function done() {
      clearTimeout(limit);
      queueMicrotask(() => stop());
      resolve();
    }
  });
  const [first] = await gardensHere();
  if (first && !get(currentGarden)) currentGarden.set(first);
}

function deviceName(): string {
  const agent = navigator.userAgent;
  const kind = /iPhone|iPad|Android|Windows|Macintosh|Linux/.exec(agent)?.[0] ?? "browser";
  return kind === "Macintosh" ? "Mac" : kind;
}
