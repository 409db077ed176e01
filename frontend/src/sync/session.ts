/** Signing in and out. The phone keeps one device id per account, in that account's database, for as long as that is there. */
import { get } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { currentHouse, leaveHouse, openHouse, session } from "../db/house";
import { knownAccounts, noteSessionEnded } from "../db/keyring";
import { counts } from "../db/outbox";
import { deviceOf } from "../db/device";
import { gardensHere } from "../db/feed";
import { currentGarden } from "../db/read";
import { postJson, useCsrf } from "./api";
import { endOldSession } from "./leaving";
import { syncNow } from "./loop";
import { line } from "./status";
import type { Code, Pairing, Session } from "./wire";

const FETCH_MS = 15_000;

export async function signIn(username: string, password: string): Promise<void> {
  const known = (await knownAccounts()).findLast((account) => account.username === username);
  const device = (known && (await deviceOf(known))) ?? uuidv7();
  await endOldSession();
  await enter(await postJson<Session>("/login", { username, password, device, device_name: deviceName() }));
}

export async function pairWith(token: string): Promise<void> {
  const remembered = get(session).account;
  const device = (remembered && (await deviceOf(remembered))) ?? uuidv7();
  await endOldSession();
  await enter(await pair(token, device));
}

export function newPairing(): Promise<Pairing> {
  return postJson("/pairings", {});
}

/** Six digits from the browser this phone was in before, or from another phone of the same person. */
export async function pairWithCode(code: string): Promise<void> {
  const remembered = get(session).account;
  const device = (remembered && (await deviceOf(remembered))) ?? uuidv7();
  await endOldSession();
  await enter(await postJson<Session>("/pair", { code, device, device_name: deviceName() }));
}

/** Six digits that sign in the app on the home screen. It has a memory of its own, so they are not made while anything waits here. */
export function newCode(): Promise<Code> {
  return postJson<Code>("/codes", {});
}

/** For links: everything that is done once a session has begun, until `garden` has arrived. */
export async function beginWith(answer: Session, garden: string): Promise<void> {
  await enter(answer, garden);
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

/** Waits for no signal: the server's session ends when it can be reached. The account's database and its outbox stay here. */
export async function signOut(): Promise<void> {
  await leaveHouse();
  currentGarden.set(null);
  line.set({ state: "idle" });
  void endOldSession();
}

async function enter(answer: Session, garden?: string): Promise<void> {
  const { account, csrf, device } = await asBefore(answer);
  useCsrf(csrf);
  await noteSessionEnded(); // the new one took the old one's place
  if (get(session).account?.id !== account.id) currentGarden.set(null);
  await openHouse(account, device);
  line.set({ state: "idle" });
  syncNow();
  await firstGarden(garden);
}

/**
 * Whose account it is, only the answer to a pairing tells. Was it on this phone before, the session is bound anew to the
 * device id of then: the server takes a change that was sent already, and a later one to it, from that device alone.
 */
async function asBefore(answer: Session): Promise<Session> {
  const before = await deviceOf(answer.account);
  if (before === null || before === answer.device) return answer;
  useCsrf(answer.csrf);
  // When the line breaks here, the account's next round finds the wrong device and asks for a sign-in.
  return newPairing().then(({ token }) => pair(token, before)).catch(() => answer);
}

function pair(token: string, device: string): Promise<Session> {
  return postJson<Session>("/pair", { token, device, device_name: deviceName() });
}

/** A new phone first fetches its garden: a screen that finds none would ask the person to make a second one. */
async function firstGarden(wanted?: string): Promise<void> {
  const db = currentHouse();
  const here = await gardensHere(db);
  if (wanted ? here.includes(wanted) : here.length > 0) return;
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
  const [first] = await gardensHere(db).catch(() => []); // it was closed: somebody signed out meanwhile
  if (first && !get(currentGarden)) currentGarden.set(first);
}

export function deviceName(): string {
  const agent = navigator.userAgent;
  const kind = /iPhone|iPad|Android|Windows|Macintosh|Linux/.exec(agent)?.[0] ?? "browser";
  return kind === "Macintosh" ? "Mac" : kind;
}
