/** When to talk to the server: at start, with a signal, on coming back, after a save, every minute while looked at. */
import { get } from "svelte/store";
import { house } from "../db/house";
import { type Counts, counts } from "../db/outbox";
import { papersComeFrom } from "../db/papers";
import { photosComeFrom } from "../db/photos";
import { Refused } from "./api";
import { followBriefings } from "./briefing";
import { fetchPaper } from "./papers";
import { bytesRest, fetchPhoto, tryBytesAgain } from "./photos";
import { syncRound } from "./round";
import { line, shareLine } from "./status";

const MINUTE_MS = 60_000;
const AFTER_SAVE_MS = 1_000;
const FIRST_DELAY_MS = 2_000;
const LONGEST_DELAY_MS = 300_000;

let running = false;
let again = false;
let failures = 0;
let waiting = 0; // changes and photos only on this phone
let inLine = false;
let timer: ReturnType<typeof setTimeout> | undefined;
let mayHurry = false; // the timer waits for something else than the sending of changes

/** Call once, when the app starts. The answer stops it. */
export function startSync(): () => void {
  photosComeFrom(fetchPhoto);
  papersComeFrom(fetchPaper);
  const back = () => document.visibilityState === "visible" && go();
  const minute = setInterval(() => document.visibilityState === "visible" && failures === 0 && go(), MINUTE_MS);
  addEventListener("online", go);
  addEventListener("focus", back);
  document.addEventListener("visibilitychange", back);
  const stopCounts = counts.subscribe(afterSave());
  const stopHouse = house.subscribe(go);
  const stopLine = shareLine();
  const stopBriefings = followBriefings();
  return () => {
    clearInterval(minute);
    clearTimeout(timer);
    removeEventListener("online", go);
    removeEventListener("focus", back);
    document.removeEventListener("visibilitychange", back);
    stopCounts();
    stopHouse();
    stopLine();
    stopBriefings();
  };
}

/** Now, and with all that the server has put off: a person wants it. */
export function syncNow(): void {
  tryBytesAgain();
  go();
}

/** Now, whatever the waiting time: there is a reason to believe it works. */
function go(): void {
  clearTimeout(timer);
  timer = undefined;
  void run();
}

/** Full jitter: a house full of phones must not knock all at once when the server comes back. */
export function delayAfter(failed: number, retryAfter: number | null = null, random: () => number = Math.random): number {
  if (retryAfter !== null) return retryAfter * 1_000;
  return random() * Math.min(LONGEST_DELAY_MS, FIRST_DELAY_MS * 2 ** failed);
}

function afterSave() {
  waiting = 0;
  let newest = 0;
  return ($counts: Counts | undefined) => {
    const now = ($counts?.waiting ?? 0) + ($counts?.photos ?? 0);
    const isMore = now > waiting || ($counts?.newest ?? 0) > newest;
    if (isMore && isFree() && !running) wait(AFTER_SAVE_MS, false);
    again ||= isMore && running;
    waiting = now;
    newest = $counts?.newest ?? 0;
  };
}

function wait(ms: number, hurry: boolean): void {
  clearTimeout(timer);
  mayHurry = hurry;
  timer = setTimeout(go, ms);
}

/** Is there nothing a new save would have to wait for? */
function isFree(): boolean {
  return timer === undefined || mayHurry;
}

async function run(): Promise<void> {
  const db = get(house);
  if (!db) return;
  if (running) {
    again = true;
    return;
  }
  running = true;
  again = false;
  try {
    await alone(db.account.id, () => syncRound(db));
    failures = 0;
    const rest = bytesRest();
    if (rest < Infinity) wait(rest, true);
  } catch (error) {
    if (get(house) === db) pause(error);
    else again = true; // whose round it was has left; the next one's is due
  } finally {
    running = false;
  }
  if (again && isFree()) go();
}

/** One tab at a time. Where the browser has no locks two may send the same items; the server then sees duplicates, not doubles. */
async function alone(account: string, work: () => Promise<void>): Promise<void> {
  if (!navigator.locks) return work();
  const name = `sync:${account}`;
  const led = await navigator.locks.request(name, { ifAvailable: true }, async (lock) => {
    if (lock) await work();
    return lock !== null;
  });
  if (!led && !inLine) void takeOver(name);
}

/** The tab that sends may be closed in the middle of it: stand in line behind it, and finish what it leaves. */
async function takeOver(name: string): Promise<void> {
  inLine = true;
  await navigator.locks.request(name, () => undefined);
  inLine = false;
  if (waiting > 0) go();
}

/** A lapsed sign-in waits for the person and costs no attempt; all else comes back by itself. */
function pause(error: unknown): void {
  const { status, code, retryAfter, path } = error instanceof Refused ? error : new Refused(-1, "");
  if (status === 401 || (status === 403 && code !== "forbidden")) {
    line.update((last) => ({ ...last, state: "signin" }));
    return;
  }
  line.update((last) => ({ ...last, state: status === 0 ? "nosignal" : "trouble" }));
  wait(delayAfter(failures, retryAfter), retryAfter !== null && !/(push|me)$/.test(path));
  if (status !== 0) failures += 1;
  else failures = Math.min(failures + 1, 3); // no signal: never more than 16 s away from noticing that it is back
}
