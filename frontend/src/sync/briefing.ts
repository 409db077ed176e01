/** Asks the server what is known of the garden: after a round that changed its history, and on a new day. */
import { get } from "svelte/store";
import { keepBriefing, keptBriefing } from "../db/briefing";
import { todayOf } from "../db/day";
import { progressOf } from "../db/feed";
import { house, stayIn } from "../db/house";
import { currentGarden } from "../db/read";
import { standingOf } from "../db/rights";
import type { Briefing } from "../db/told";
import { getJson } from "./api";
import { line } from "./status";
import type { Briefed } from "./wire";

const QUIET_MS = 1_000;

let timer: ReturnType<typeof setTimeout> | undefined;

/** The answer stops it. Waits for a moment's rest after the round, so no save and no push ever waits for it. */
export function followBriefings(): () => void {
  const soon = () => {
    clearTimeout(timer);
    if (get(line).state === "reached") timer = setTimeout(() => void freshen().catch(() => undefined), QUIET_MS);
  };
  const stops = [line.subscribe(soon), currentGarden.subscribe(soon)];
  return () => {
    clearTimeout(timer);
    stops.forEach((stop) => stop());
  };
}

/** Throws Refused when the server does not say; the one kept here stays. */
export async function freshen(): Promise<void> {
  const garden = get(currentGarden);
  const db = get(house);
  if (!garden || !db || (await standingOf(db, garden))?.state === "ended") return;
  const day = await todayOf(garden);
  const { high } = await progressOf(db, garden);
  if (high === null || (await isFresh(garden, high, day))) return;
  const { head, briefing } = await getJson<Briefed>(`/gardens/${garden}/briefing?today=${day}`);
  const plain: Briefing = briefing;
  stayIn(db);
  await keepBriefing(garden, { head, own: [], here: false, briefing: plain });
}

async function isFresh(garden: string, high: string, day: string): Promise<boolean> {
  const kept = await keptBriefing(garden);
  return kept !== undefined && !kept.here && kept.head === high && kept.briefing.today === day;
}
