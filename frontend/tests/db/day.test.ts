import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { openTab, until } from "../cast/phone";

// Kiritimati is 14 hours ahead of UTC, Pago Pago 11 behind, all year (IANA time zone database, from memory).
const [FIRST, LAST] = ["Pacific/Kiritimati", "Pacific/Pago_Pago"];

beforeEach(() => {
  vi.stubEnv("TZ", FIRST);
  vi.useFakeTimers({ toFake: ["Date", "setInterval", "clearInterval"], now: new Date("2031-08-03T10:30:00Z") });
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllEnvs();
});

async function gardenAt(time_zone: string) {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre", time_zone });
  return { tab, garden, ...(await import("../../src/db/day")) };
}

test("a phone on one side of the date line asks for the day of the garden on the other side", async () => {
  const { garden, todayOf } = await gardenAt(LAST);
  expect(new Date().getDate()).toBe(4);
  expect(await todayOf(garden)).toBe("2031-08-02");
});

test("a garden that is not on this phone goes by the phone's own clock", async () => {
  const { todayOf } = await gardenAt(LAST);
  expect(await todayOf("0199f000-0000-7000-8000-00000000bbbb")).toBe("2031-08-04");
});

test("what a screen shows turns at the garden's midnight, and at once when the garden's clock is changed", async () => {
  const { tab, garden, followToday } = await gardenAt(LAST);
  const seen: string[] = [];
  const stop = followToday(garden).subscribe((day) => day && seen.at(-1) !== day && seen.push(day));
  await vi.waitFor(() => expect(seen).toEqual(["2031-08-02"]));
  vi.setSystemTime(new Date("2031-08-03T10:59:55Z"));
  vi.advanceTimersByTime(10_000);
  expect(seen).toEqual(["2031-08-02", "2031-08-03"]);
  await tab.change(garden, "garden", garden, { time_zone: FIRST });
  await vi.waitFor(() => expect(seen).toEqual(["2031-08-02", "2031-08-03", "2031-08-04"]));
  stop();
});

test("a briefing is asked for the garden's day, not the phone's", async () => {
  const { tab, garden } = await gardenAt(LAST);
  const ask = vi.fn(async () => ({ today: "2031-08-02", beds: [], lines: [] }));
  vi.doMock("../../src/engine/engine.ts", () => ({ ask, look: async () => ({ kind: "ready_to_start" }) }));
  tab.sync.line.set({ state: "nosignal" });
  const { known } = await import("../../src/knowing");
  await until(known(garden), ({ last, here }) => last?.here === true && here === "");
  expect(ask.mock.calls).toEqual([["briefing", expect.objectContaining({ today: "2031-08-02" })]]);
  vi.doUnmock("../../src/engine/engine.ts");
});
