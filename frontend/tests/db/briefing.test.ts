import { get } from "svelte/store";
import { expect, test, vi } from "vitest";
import { BED, first, openTab, type Tab, until } from "../cast/phone";

const NOTHING = { today: "2031-08-03", beds: [], lines: [] };
const CHECK = "0199f000-0000-7000-8000-00000000aaaa";

async function gardenWithBriefing(head = "0.0000000000000000") {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const { own } = await tab.briefing.standing(garden);
  await tab.briefing.keepBriefing(garden, { head, own, here: false, briefing: NOTHING });
  return { tab, garden };
}

function rate(tab: Tab, garden: string): Promise<string> {
  return tab.create(garden, "gall_rating", { root_check: CHECK });
}

function last(tab: Tab, garden: string) {
  return first(tab.briefing.lastBriefing(garden));
}

/** The server took everything and sent it back, numbered from `seq` on. */
async function sentAndPulled(tab: Tab, garden: string, seq: number): Promise<void> {
  const rows = await tab.db().outbox.toArray();
  const acked = rows.map((row, at) => ({ ...row, st: "ack" as const, ack: seq + at }));
  await tab.db().outbox.bulkPut(acked);
  await tab.db().sent.bulkAdd(acked.map(({ n: _n, ...row }) => ({ ...row, sent_at: Date.now() })));
  const records = acked.map(({ id, kind, ack, set }) => ({ id, kind, seq: ack, deleted: false, by: "", device: null, rev: {}, doc: set }));
  const end = seq + rows.length - 1;
  await tab.feed.storePage(tab.db(), garden, { cursor: end, head: `${end}.00000000000000ff`, more: false, records }, 0);
}

test("the last briefing is there again after the phone was restarted, with the mark and the moment it was made", async () => {
  const { tab, garden } = await gardenWithBriefing();
  const again = await openTab(tab.account);
  expect(await last(again, garden)).toMatchObject({ head: "0.0000000000000000", briefing: NOTHING, missing: 0, kinds: [] });
  expect((await last(again, garden))!.made_at).toMatch(/^\d{4}-\d\d-\d\dT[\d:]+Z$/);
});

test("a garden without a briefing says that there is none, also beside a garden that has one", async () => {
  const { tab } = await gardenWithBriefing();
  expect(await last(tab, "0199f000-0000-7000-8000-00000000bbbb")).toBeNull();
});

test("a new rating is one entry it does not include yet, and the screen hears of it", async () => {
  const { tab, garden } = await gardenWithBriefing();
  const heard = until(tab.briefing.lastBriefing(garden), (told) => told!.missing === 1);
  await rate(tab, garden);
  expect((await heard)!.kinds).toEqual([{ kind: "gall_rating", n: 1 }]);
});

test("an entry changed three times is one, and a photo is none: nothing is worked out from it", async () => {
  const { tab, garden } = await gardenWithBriefing();
  const bed = await tab.create(garden, "bed", BED);
  await tab.db().outbox.toCollection().modify({ tried: 1 });
  await tab.change(garden, "bed", bed, { name: "By the gate" });
  await tab.create(garden, "photo", { of: { kind: "bed", id: bed } });
  await rate(tab, garden);
  expect((await last(tab, garden))!.kinds).toEqual([
    { kind: "bed", n: 1 },
    { kind: "gall_rating", n: 1 },
  ]);
});

test("a change the server took before it answered is included, although it has not come back yet", async () => {
  const { tab, garden } = await gardenWithBriefing("7.00000000000000aa");
  const rating = await rate(tab, garden);
  await tab.db().outbox.where("id").equals(rating).modify({ st: "ack", ack: 7 });
  expect((await last(tab, garden))!.missing).toBe(0);
  await tab.db().outbox.where("id").equals(rating).modify({ ack: 8 });
  expect((await last(tab, garden))!.missing).toBe(1);
});

test("what came from another phone since is not included yet", async () => {
  const { tab, garden } = await gardenWithBriefing("1.00000000000000aa");
  const bed = { id: tab.newId(), kind: "bed", seq: 2, deleted: false, by: "", device: null, rev: {}, doc: { ...BED } };
  await tab.feed.storePage(tab.db(), garden, { cursor: 2, head: "2.00000000000000bb", more: false, records: [bed] }, 0);
  expect((await last(tab, garden))!.kinds).toEqual([{ kind: "bed", n: 1 }]);
});

test("worked out here it includes what waits here, before and after that has been sent; a later change it does not", async () => {
  const { tab, garden } = await gardenWithBriefing();
  const rating = await rate(tab, garden);
  await tab.briefing.keepBriefing(garden, { ...(await tab.briefing.standing(garden)), here: true, briefing: NOTHING });
  expect(await last(tab, garden)).toMatchObject({ here: true, missing: 0 });
  await sentAndPulled(tab, garden, 1);
  expect(await tab.db().outbox.count()).toBe(0);
  expect((await last(tab, garden))!.missing).toBe(0);
  await tab.change(garden, "gall_rating", rating, { note: "soft" });
  expect((await last(tab, garden))!.missing).toBe(1);
});

test("with no room for it the old one stays, and neither the reserve nor a save is touched", async () => {
  const { tab, garden } = await gardenWithBriefing();
  const reserve = await tab.db().ballast.count();
  const outbox = await tab.db().outbox.toArray();
  const full = Object.assign(new Error("full"), { name: "QuotaExceededError" });
  vi.spyOn(tab.db().meta, "put").mockRejectedValueOnce(full);
  const newer = { ...NOTHING, today: "2031-08-04" };
  await expect(tab.briefing.keepBriefing(garden, { head: null, own: [], here: true, briefing: newer })).rejects.toThrow("full");
  expect((await last(tab, garden))!.briefing.today).toBe("2031-08-03");
  expect([await tab.db().ballast.count(), get(tab.house.notSaved)]).toEqual([reserve, false]);
  expect(await tab.db().outbox.toArray()).toEqual(outbox);
});
