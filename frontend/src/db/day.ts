/** Today in a garden: the day on the garden's own clock, wherever this phone is. The one place a day is asked of the clock. */
import { readable, type Readable } from "svelte/store";
import { phoneZone, todayIn } from "../text/zone";
import { fold } from "./fold";
import { currentHouse } from "./house";
import type { Day } from "./kinds";
import { one } from "./read";

const LOOK_MS = 10_000;

export async function todayOf(garden: string): Promise<Day> {
  const db = currentHouse();
  const [server, rows] = await Promise.all([db.records.get(garden), db.outbox.where("id").equals(garden).sortBy("n")]);
  return todayIn(fold<"garden">(server, rows, "")?.doc.time_zone ?? phoneZone());
}

/** The same for a screen: undefined until the garden was read, then followed over the garden's midnight. */
export function followToday(garden: string): Readable<Day | undefined> {
  return readable<Day | undefined>(undefined, (set) => {
    let zone: string | undefined;
    const look = () => zone && set(todayIn(zone));
    const stop = one(garden, "garden", garden).subscribe((found) => {
      zone = found === undefined ? undefined : (found?.doc.time_zone ?? phoneZone());
      look();
    });
    const timer = setInterval(look, LOOK_MS);
    return () => {
      stop();
      clearInterval(timer);
    };
  });
}
