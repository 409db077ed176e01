import { expect, test } from "vitest";
import type { Point } from "../../src/db/kinds.ts";
import { lift, nearestOpen, nextCore, putBack, ticks, type Walk } from "../../src/screens/Take/cores.ts";

const NOW = "2031-08-03T09:20:00Z";
const planned: Point[] = [[20, 20], [60, 40], [20, 80]];
const fresh: Walk = { cores_planned: planned, core_places: [], n_cores: null, lifted_at: null };

/** A ticked core is kept as a whole, so the record is what the save makes of it. */
const after = (walk: Walk, set: Partial<Walk>): Walk => ({ ...walk, ...set });

test("the first core in the bucket notes the hour, the next ones leave it", () => {
  const first = lift(fresh, planned[0]!, NOW);
  expect(first).toEqual({ n_cores: 1, core_places: [planned[0]], lifted_at: NOW });
  expect(lift(after(fresh, first), planned[1]!, "2031-08-03T09:25:00Z")).toEqual({ n_cores: 2, core_places: planned.slice(0, 2) });
});

test("a core ticked twice counts once", () => {
  const walk = after(fresh, lift(fresh, planned[0]!, NOW));
  expect(lift(walk, planned[0]!, NOW)).toEqual({});
});

test("the walk goes on to the next open core, round again for those left out, and ends", () => {
  expect(nextCore(fresh)).toBe(0);
  expect(nextCore(fresh, new Set([0]))).toBe(1);
  const two = after(fresh, { core_places: [planned[0]!, planned[2]!], n_cores: 2 });
  expect(ticks(two)).toEqual([true, false, true]);
  expect(nextCore(two)).toBe(1);
  expect(nextCore(after(two, { core_places: planned, n_cores: 3 }))).toBeNull();
  expect(nextCore(two, new Set([1]))).toBeNull();
});

test("a core without a place counts, and taking back takes the last one", () => {
  const counted = after(fresh, lift(fresh, null, NOW));
  expect(counted).toMatchObject({ n_cores: 1, core_places: [], lifted_at: NOW });
  expect(putBack(counted)).toEqual({ n_cores: null });
  const placed = after(fresh, lift(fresh, planned[1]!, NOW));
  expect(putBack(placed)).toEqual({ core_places: [], n_cores: null });
  expect(putBack(fresh)).toEqual({});
});

test("cores counted beside the map are taken back before the places on it", () => {
  expect(putBack({ ...fresh, core_places: [planned[0]!], n_cores: 3 })).toEqual({ n_cores: 2 });
});

test("a tap on the map means the nearest place that is still open", () => {
  expect(nearestOpen(fresh, [58, 45])).toBe(1);
  expect(nearestOpen({ ...fresh, core_places: [planned[1]!] }, [58, 45])).toBe(0);
  expect(nearestOpen({ ...fresh, core_places: planned }, [58, 45])).toBeNull();
});
