/** A garden whose link has ended: what of it is still on this phone, and taking its copy away. Never what was not sent. */
import type { Readable } from "svelte/store";
import { progressKey } from "./feed";
import { inHouse } from "./house";
import { live } from "./live";
import { forgetStanding, type Standing, standings } from "./rights";
import type { House } from "./schema";

export interface Ended extends Standing {
  waiting: number; // changes and photos that have not reached the server
  withGrower: number; // sent after the end: the grower decides
  held: boolean; // the phone has a copy of the garden
}

/** Gardens that were shared with this phone and are not any more, as long as anything of them is here. */
export const endedGardens: Readable<Ended[] | undefined> = live(async (db) => {
  const ended = (await standings(db)).filter(({ state }) => state === "ended");
  const counted = await Promise.all(ended.map(async (standing) => ({ ...standing, ...(await leftOf(db, standing.id)) })));
  return counted.filter(({ waiting, withGrower, held }) => waiting + withGrower > 0 || held);
});

/**
 * Takes the server's copy of an ended garden off the phone, with what is safely at the grower's. What waits here, and the
 * photos that belong to it, stay until they are sent or thrown away by a person.
 */
export async function takeAway(garden: string): Promise<void> {
  await inHouse(["records", "shadow", "outbox", "sent", "blobs", "bytes", "meta"], async (db) => {
    await db.records.where("garden").equals(garden).delete();
    await db.shadow.where("garden").equals(garden).delete();
    await db.sent.where("garden").equals(garden).delete();
    await db.outbox.where("[garden+st]").anyOf([[garden, "ack"], [garden, "held"]]).delete();
    await db.meta.bulkDelete([progressKey(garden), `briefing:${garden}`]);
    const gone = await db.blobs.where("[garden+st]").anyOf(["sent", "shown", "stored", "aside"].map((st) => [garden, st])).toArray();
    await db.blobs.bulkDelete(gone.map(({ sha256 }) => [garden, sha256]));
    await db.bytes.bulkDelete(gone.map(({ sha256 }) => [garden, sha256]));
    if ((await leftOf(db, garden)).waiting === 0) await forgetStanding(db, garden);
  });
}

async function leftOf(db: House, garden: string) {
  const rows = (...states: string[]) => db.outbox.where("[garden+st]").anyOf(states.map((st) => [garden, st])).count();
  const photos = await db.blobs.where("[garden+st]").anyOf([[garden, "waiting"], [garden, "parked"]]).count();
  const [waiting, withGrower] = [await rows("new", "parked"), await rows("held")];
  return { waiting: waiting + photos, withGrower, held: (await db.records.where("garden").equals(garden).count()) > 0 };
}
