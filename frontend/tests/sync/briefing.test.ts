import { beforeEach, expect, test, vi } from "vitest";
import { GardenServer, problem } from "../cast/garden_server";
import { BED, first, holdSession, openTab, type Tab } from "../cast/phone";

let server: GardenServer;

beforeEach(() => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
});

async function sentGarden(): Promise<{ tab: Tab; garden: string }> {
  const tab = await holdSession(server, await openTab());
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  tab.read.currentGarden.set(garden);
  await tab.sync.syncRound();
  return { tab, garden };
}

const asked = () => server.requests.filter((request) => request.endsWith("/briefing")).length;

test("the server is asked after a change of the garden and on a new day, and not in between", async () => {
  vi.useFakeTimers({ toFake: ["Date"], now: new Date("2031-08-03T10:00:00Z") });
  try {
    const { tab, garden } = await sentGarden();
    await tab.sync.freshen();
    await tab.sync.freshen();
    expect(asked()).toBe(1);
    await tab.create(garden, "bed", BED);
    await tab.sync.syncRound();
    await tab.sync.freshen();
    expect(asked()).toBe(2);
    vi.setSystemTime(new Date("2031-08-04T10:00:00Z"));
    await tab.sync.freshen();
    expect(asked()).toBe(3);
    expect(await first(tab.briefing.lastBriefing(garden))).toMatchObject({ head: expect.stringMatching(/^2\./), missing: 0, briefing: { today: "2031-08-04" } });
  } finally {
    vi.useRealTimers();
  }
});

test("one worked out here gives way to the server's as soon as it answers", async () => {
  const { tab, garden } = await sentGarden();
  const briefing = { today: "2031-08-03", beds: [], lines: [] };
  await tab.briefing.keepBriefing(garden, { ...(await tab.briefing.standing(garden)), here: true, briefing });
  await tab.sync.freshen();
  expect(await first(tab.briefing.lastBriefing(garden))).toMatchObject({ here: false });
});

test("when the server does not answer, the one kept here stays", async () => {
  const { tab, garden } = await sentGarden();
  await tab.sync.freshen();
  const kept = await first(tab.briefing.lastBriefing(garden));
  await tab.create(garden, "bed", BED);
  await tab.sync.syncRound();
  server.fault = (_method, path) => (path.endsWith("/briefing") ? problem(503, "slow_down") : null);
  await expect(tab.sync.freshen()).rejects.toMatchObject({ status: 503 });
  expect(await first(tab.briefing.lastBriefing(garden))).toMatchObject({ head: kept!.head, missing: 1 });
});

test("it is asked for by itself a moment after a round, and the round does not wait for it", async () => {
  const { tab } = await sentGarden();
  const stop = tab.sync.followBriefings();
  try {
    await tab.sync.syncRound();
    expect(asked()).toBe(0);
    await vi.waitFor(() => expect(asked()).toBe(1), { timeout: 3_000 });
  } finally {
    stop();
  }
});

test("a garden the server has never seen is not asked about", async () => {
  const tab = await holdSession(server, await openTab());
  tab.read.currentGarden.set(await tab.create("", "garden", { name: "Long Acre" }));
  await tab.sync.freshen();
  expect(asked()).toBe(0);
});
