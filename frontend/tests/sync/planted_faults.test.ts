/** Four faults of the phone, planted one at a time: a run of faults that does not see them would prove nothing. */
import fc from "fast-check";
import { afterAll, afterEach, beforeAll, expect, test, vi } from "vitest";
import { watchStoring } from "../cast/bad_line";
import { planted } from "../cast/phone";
import { PlantingYear, steps, stepsWithRestore } from "../cast/planting_year";
import { RealServer } from "../cast/real_server";

type Send = typeof import("../../src/db/send");
type Feed = typeof import("../../src/db/feed");
const SEND = "../../src/db/send";
const FEED = "../../src/db/feed";
const SEED = 7;
const MOST_RUNS = 10;
vi.setConfig({ testTimeout: MOST_RUNS * 20_000 });

const PLANTED: Record<string, { plant: () => void; all: ReturnType<typeof steps> }> = {
  ackearly: { plant: () => vi.doMock(SEND, ackEarly), all: steps(60) },
  cursorfirst: { plant: () => vi.doMock(FEED, cursorFirst), all: steps(60) },
  dropoutbox: { plant: () => vi.doMock(SEND, dropOutbox), all: steps(60) },
  nohigh: { plant: () => vi.doMock(FEED, noHigh), all: stepsWithRestore(24) },
};

async function ackEarly(original: () => Promise<Send>): Promise<Send> {
  const real = await original();
  const settle: Send["settle"] = async (db, ...rest) => {
    const again = await real.settle(db, ...rest);
    await db.outbox.where("st").equals("ack").delete();
    return again;
  };
  return { ...real, settle };
}

async function dropOutbox(original: () => Promise<Send>): Promise<Send> {
  const real = await original();
  const nextBatch: Send["nextBatch"] = async (db, ...rest) => {
    const rows = await real.nextBatch(db, ...rest);
    await db.outbox.bulkDelete(rows.map((row) => row.n!));
    return rows;
  };
  return { ...real, nextBatch };
}

async function cursorFirst(original: () => Promise<Feed>): Promise<Feed> {
  const real = await original();
  const storePage: Feed["storePage"] = async (db, garden, feed, from) => {
    await db.meta.put({ k: real.progressKey(garden), v: { cursor: feed.cursor, high: feed.head } });
    await real.storePage(db, garden, feed, from);
  };
  return { ...real, storePage };
}

async function noHigh(original: () => Promise<Feed>): Promise<Feed> {
  const real = await original();
  const progressOf: Feed["progressOf"] = async (db, garden) => ({ ...(await real.progressOf(db, garden)), high: null });
  return { ...real, progressOf, raiseHigh: async () => undefined };
}

const server = new RealServer("tests.faults.quick_settings");
const growers = Array.from({ length: 4 * MOST_RUNS + 2 }, (_, at) => `grower${at}`);
beforeAll(async () => {
  watchStoring();
  await server.prepare();
  server.makeAccounts(growers);
}, 120_000);
afterEach(() => {
  planted.plant = () => undefined;
  vi.doUnmock(SEND);
  vi.doUnmock(FEED);
});
afterAll(() => server.end());

/** Answers whether anything was seen to go wrong, and in which run. */
async function look(plant: () => void, all: ReturnType<typeof steps>, numRuns: number) {
  planted.plant = plant;
  const property = fc.asyncProperty(all, async (some) => {
    await (await PlantingYear.begin(server, growers.pop()!, 2, {})).run(some);
  });
  return fc.check(property, { seed: SEED, numRuns, endOnFailure: true });
}

test("a module that was replaced by itself shows nothing", async () => {
  const same = async (original: () => Promise<object>) => ({ ...(await original()) });
  const found = await look(() => [SEND, FEED].forEach((path) => vi.doMock(path, same)), steps(60), 2);
  expect(found.errorInstance).toBeNull();
});

test.each(Object.keys(PLANTED))("the faults of the line show up a phone with %s within ten seeds", async (name) => {
  const { plant, all } = PLANTED[name]!;
  const found = await look(plant, all, MOST_RUNS);
  expect(found.failed).toBe(true);
});
