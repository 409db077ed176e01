/** Ticking cores off on the way through the bed: a ticked core is one of the planned places among those where soil was lifted. */
import type { Point, SoilSample } from "../../db/kinds.ts";

export type Walk = Pick<SoilSample, "cores_planned" | "core_places" | "n_cores" | "lifted_at">;

const MOST_CORES = 200;
const same = ([x, y]: Point, [u, v]: Point) => x === u && y === v;

/** For each planned place, whether its core is in the bucket. */
export function ticks({ cores_planned, core_places }: Walk): boolean[] {
  return cores_planned.map((place) => core_places.some((lifted) => same(lifted, place)));
}

/** The next planned place to walk to, looking on from `after` and round again; null when all are done or passed over. */
export function nextCore(walk: Walk, passed: ReadonlySet<number> = new Set(), after = -1): number | null {
  const done = ticks(walk);
  const order = done.map((_, i) => (i + after + 1) % done.length);
  return order.find((i) => !done[i] && !passed.has(i)) ?? null;
}

/** One core more, at a place or at none that was noted. The first one notes the hour. */
export function lift(walk: Walk, at: Point | null, now: string): Partial<SoilSample> {
  const before = walk.n_cores ?? walk.core_places.length;
  if (before >= MOST_CORES || (at && walk.core_places.some((lifted) => same(lifted, at)))) return {};
  const set: Partial<SoilSample> = { n_cores: before + 1 };
  if (at) set.core_places = [...walk.core_places, at];
  if (walk.lifted_at === null) set.lifted_at = now;
  return set;
}

/** The last core is taken back; more may be counted than have a place. */
export function putBack(walk: Walk): Partial<SoilSample> {
  const n = walk.n_cores ?? walk.core_places.length;
  if (n === 0) return {};
  const placed = walk.core_places.length;
  return placed >= n ? { core_places: walk.core_places.slice(0, -1), n_cores: n - 1 || null } : { n_cores: n - 1 || null };
}

/** The planned place nearest to a tap that is not ticked yet; null when none is left. */
export function nearestOpen(walk: Walk, [x, y]: Point): number | null {
  const done = ticks(walk);
  const far = ([u, v]: Point) => Math.hypot(u - x, v - y);
  const open = walk.cores_planned.map((place, i) => ({ i, far: far(place) })).filter(({ i }) => !done[i]);
  return open.sort((a, b) => a.far - b.far)[0]?.i ?? null;
}
