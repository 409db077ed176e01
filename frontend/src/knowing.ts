/** What a screen shows of the briefing: the last one at once; while no server answers, what this phone works out itself. */
import { get, readable, type Readable } from "svelte/store";
import { keepBriefing, keptBriefing, type Last, lastBriefing, standing } from "./db/briefing.ts";
import { followToday, todayOf } from "./db/day.ts";
import { recordsOf } from "./db/records.ts";
import type { Briefing } from "./db/told.ts";
import { line } from "./sync/status.ts";

/** `working`: being worked out here. `absent`, `cannot`: this phone cannot yet, or cannot at all. */
export interface Known {
  last: Last | null | undefined;
  here: "" | "working" | "absent" | "cannot";
}

const REST_MS = 1_500;

/** Works only while somebody looks, and only after a moment's rest: not after every tap. */
export function known(garden: string): Readable<Known> {
  return readable<Known>({ last: undefined, here: "" }, (set) => {
    let now: Known = { last: undefined, here: "" };
    let today: string | undefined;
    let timer: ReturnType<typeof setTimeout> | undefined;
    const tell = (more: Partial<Known>) => set((now = { ...now, ...more }));
    const soon = () => {
      clearTimeout(timer);
      if (now.here !== "working" && isCutOff() && isLacking(now.last, today)) timer = setTimeout(() => void work(), REST_MS);
    };
    const work = async () => {
      tell({ here: "working" });
      tell({ here: await workOut(garden) });
    };
    const stopLast = lastBriefing(garden).subscribe((last) => {
      tell({ last });
      soon();
    });
    const stopToday = followToday(garden).subscribe((day) => {
      today = day;
      soon();
    });
    const stopLine = line.subscribe(soon);
    return () => {
      clearTimeout(timer);
      stopLast();
      stopToday();
      stopLine();
    };
  });
}

function isCutOff(): boolean {
  return ["nosignal", "signin", "trouble"].includes(get(line).state);
}

function isLacking(last: Known["last"], today: string | undefined): boolean {
  if (!last || today === undefined) return last === null;
  return last.missing > 0 || last.briefing.today !== today;
}

const running = new Map<string, Promise<Known["here"]>>();

/** Two screens after one another wait for the same answer. */
function workOut(garden: string): Promise<Known["here"]> {
  const answer = running.get(garden) ?? askEngine(garden).finally(() => running.delete(garden));
  running.set(garden, answer);
  return answer;
}

/** Loads the engine only now. Whatever goes wrong, the briefing kept before stays. */
async function askEngine(garden: string): Promise<Known["here"]> {
  try {
    const { ask, look } = await import("./engine/engine.ts");
    const state = (await look()).kind;
    if (state === "cannot") return "cannot";
    if (state === "absent" || state === "fetching") return "absent";
    const [from, today, records] = [await standing(garden), await todayOf(garden), await recordsOf(garden)];
    // A lab's holidays are the server's to look up; those it gave last go along.
    const holidays = (await keptBriefing(garden))?.briefing.holidays ?? {};
    const briefing = await ask<Briefing>("briefing", { records, today, holidays });
    await keepBriefing(garden, { ...from, here: true, briefing });
    return "";
  } catch {
    return "absent";
  }
}
