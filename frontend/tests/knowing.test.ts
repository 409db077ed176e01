import { beforeEach, expect, test, vi } from "vitest";
import { openTab, until } from "./cast/phone";

const ask = vi.fn();
const look = vi.fn();
vi.doMock("../src/engine/engine.ts", () => ({ ask, look }));

const REST_MS = 1_700;
const briefing = () => ({ today: new Date().toLocaleDateString("sv-SE"), beds: [], lines: [] });

beforeEach(() => {
  ask.mockReset().mockImplementation(async () => briefing());
  look.mockReset().mockResolvedValue({ kind: "ready_to_start" });
});

/** A garden whose briefing does not include one bed yet. */
async function lackingGarden(state: "nosignal" | "reached") {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const { own } = await tab.briefing.standing(garden);
  await tab.briefing.keepBriefing(garden, { head: null, own, here: false, briefing: briefing() });
  await tab.create(garden, "bed", { name: "By the wall" });
  tab.sync.line.set({ state });
  const { known } = await import("../src/knowing");
  return { tab, garden, known: known(garden) };
}

const rest = () => new Promise((wake) => setTimeout(wake, REST_MS));

test("with no server the phone works out itself what it shows, once, from all it holds", async () => {
  const { garden, known } = await lackingGarden("nosignal");
  const told = await until(known, ({ last, here }) => last?.here === true && here === "");
  expect(told.last).toMatchObject({ missing: 0 });
  expect(ask).toHaveBeenCalledTimes(1);
  const [name, { records }] = ask.mock.calls[0] as [string, { records: { kind: string; id: string }[] }];
  expect([name, records.map(({ kind }) => kind)]).toEqual(["briefing", ["garden", "bed"]]);
  expect(records[0]!.id).toBe(garden);
});

test("it says so while it does, and who looks meanwhile from another screen waits for the same answer", async () => {
  let answer = (_value: unknown) => {};
  ask.mockReturnValue(new Promise((done) => (answer = done)));
  const { known } = await lackingGarden("nosignal");
  await until(known, ({ here, last }) => here === "working" && last?.missing === 1);
  const second = until(known, ({ last }) => last?.here === true);
  await rest();
  answer(briefing());
  expect((await second).last).toMatchObject({ missing: 0 });
  expect(ask).toHaveBeenCalledTimes(1);
});

test("while nobody looks, or the server answers, the engine is not even loaded", async () => {
  await lackingGarden("nosignal");
  await rest();
  const { known } = await lackingGarden("reached");
  const stop = known.subscribe(() => undefined);
  await rest();
  stop();
  expect([look, ask].map((one) => one.mock.calls.length)).toEqual([0, 0]);
});

test.each([
  ["absent", "absent"],
  ["fetching", "absent"],
  ["cannot", "cannot"],
])("with an engine that is %s the old one stays and the screen can say why", async (kind, here) => {
  look.mockResolvedValue({ kind });
  const { known } = await lackingGarden("nosignal");
  expect(await until(known, (now) => now.here === here)).toMatchObject({ last: { missing: 1, here: false } });
  expect(ask).not.toHaveBeenCalled();
});

test("an engine that breaks off leaves the old one", async () => {
  ask.mockRejectedValue(new Error("stopped"));
  const { known } = await lackingGarden("nosignal");
  expect(await until(known, ({ here }) => here === "absent")).toMatchObject({ last: { missing: 1 } });
});
