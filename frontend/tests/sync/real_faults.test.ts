import fc from "fast-check";
import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { LINE_FAULTS, tell, watchStoring } from "../cast/bad_line";
import { PlantingYear, steps, stepsWithRestore } from "../cast/planting_year";
import { RealServer } from "../cast/real_server";

const SEED = 20_310_614 + Number(process.env["FAULT_FIRST_SEED"] ?? 0);
const N_RUNS = 24 * Number(process.env["FAULT_TIMES"] ?? 1);
const N_RESTORED = Math.ceil(N_RUNS / 6);
vi.setConfig({ testTimeout: N_RUNS * 20_000 });

const server = new RealServer("tests.faults.quick_settings");
const growers = Array.from({ length: N_RUNS + N_RESTORED }, (_, at) => `grower${at}`);
beforeAll(async () => {
  watchStoring();
  await server.prepare();
  server.makeAccounts(growers);
}, 120_000);
afterAll(() => server.end());

test("phones over a bad line agree with the real server at the end, and nothing typed is lost", async () => {
  const counts: Record<string, number> = {};
  const property = fc.asyncProperty(fc.integer({ min: 2, max: 3 }), steps(60), async (n, all) => {
    await (await PlantingYear.begin(server, growers.pop()!, n, counts)).run(all);
  });
  await fc.assert(property, { seed: SEED, numRuns: N_RUNS, endOnFailure: true });
  tell("phones", counts);
  for (const fault of LINE_FAULTS) expect(counts[fault]).toBeGreaterThan(0);
});

test("phones heal a real server whose folder was copied back by hand", async () => {
  const counts: Record<string, number> = {};
  const property = fc.asyncProperty(stepsWithRestore(24), async (all) => {
    await (await PlantingYear.begin(server, growers.pop()!, 2, counts)).run(all);
  });
  await fc.assert(property, { seed: SEED, numRuns: N_RESTORED, endOnFailure: true });
  tell("phones, restored", counts);
  expect(counts["restores"]).toBe(N_RESTORED);
});
