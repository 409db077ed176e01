/** Rating plant after plant: what a tap on a plant or a grade does. Knows saving, draws nothing. */
import { nextPlant } from "../../capture/digorder.ts";
import { plantKey, type PlantReadings } from "../../capture/tally.ts";
import type { GallRating, GallScale, Point, Reading } from "../../db/kinds.ts";
import { change, create, now, remove } from "../../db/save.ts";

const UNDO_MS = 10_000;
const TWICE_MS = 1_000;
const BUZZ_MS = 20;

/** What the screen holds of the check at this moment. */
export interface Bedside {
  garden: string;
  check: string;
  scale: GallScale;
  /** Places of the plants, plant 1 first; empty when nobody laid them out. */
  plants: Point[];
  order: number[];
  read: Map<string, PlantReadings>;
  /** The readings by their id. */
  docs: Map<string, GallRating>;
}

export interface Last {
  id: string;
  key: string;
  place: GallRating["place"];
  reading: Reading;
  before: Reading | null;
}

export class Rating {
  /** Key of the plant (or spot) a grade would go to. */
  chosen = $state<string | null>(null);
  /** A spot that was tapped where no plant was laid out. */
  spot = $state<Point | null>(null);
  last = $state<Last | null>(null);
  undoable = $state(false);
  /** A tap that came too soon after the one before: saved only when the person says so. */
  asking = $state<{ key: string; state: Reading["state"]; grade: number | null } | null>(null);
  failed = $state(false);
  takenBack = $state<string | null>(null);

  #bedside: () => Bedside;
  #queue: Promise<void> = Promise.resolve();
  #lastTap = { at: -TWICE_MS, state: "", grade: null as number | null };
  /** Taken back a moment ago; the list read from the phone may still hold it. */
  #removed = new Set<string>();
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(bedside: () => Bedside) {
    this.#bedside = bedside;
  }

  /** The first plant to dig when the screen opens. */
  begin(): void {
    const { order, read } = this.#bedside();
    this.#choosePlant(nextPlant(order, donePlants(read)));
  }

  pick(key: string): void {
    this.chosen = key;
    this.asking = null;
    if (!key.startsWith("s")) this.spot = null;
  }

  pickGround([x, y]: Point): void {
    this.spot = [Math.round(x), Math.round(y)];
    this.pick(plantKey({ x_cm: this.spot[0], y_cm: this.spot[1], plant: null }));
  }

  tap(state: Reading["state"], grade: number | null): void {
    const key = this.chosen;
    if (key === null) return;
    const at = performance.now();
    const again = at - this.#lastTap.at < TWICE_MS && this.#lastTap.state === state && this.#lastTap.grade === grade;
    this.#lastTap = { at, state, grade };
    if (again) this.asking = { key, state, grade };
    else this.#enqueue(key, state, grade);
  }

  confirmTwice(yes: boolean): void {
    const asked = this.asking;
    this.asking = null;
    if (asked && yes) this.#enqueue(asked.key, asked.state, asked.grade);
  }

  async undo(): Promise<void> {
    const { last } = this;
    if (!last || !this.undoable) return;
    const { garden } = this.#bedside();
    try {
      if (last.before) await change(garden, "gall_rating", last.id, { reading: last.before });
      else {
        await remove(garden, "gall_rating", last.id);
        this.#removed.add(last.id);
      }
      this.failed = false;
      this.last = null;
      this.undoable = false;
      this.takenBack = last.key;
      if (last.place.plant === null) this.spot = [last.place.x_cm, last.place.y_cm];
      this.chosen = last.key;
    } catch {
      this.failed = true;
    }
  }

  #enqueue(key: string, state: Reading["state"], grade: number | null): void {
    this.#queue = this.#queue.then(() => this.#write(key, state, grade));
  }

  async #write(key: string, state: Reading["state"], grade: number | null): Promise<void> {
    const { garden, check, scale, read, docs } = this.#bedside();
    const reading: Reading = { state, grade, gall_scale: scale, trace_only: false };
    const known = this.#ratingOf(key, read);
    const before = known ? (docs.get(known)?.reading ?? this.last?.reading ?? null) : null;
    const place = this.#place(key);
    try {
      const id = known ?? (await create(garden, "gall_rating", { root_check: check, place, reading, rated_at: now() }));
      if (known) await change(garden, "gall_rating", known, { reading });
      this.#landed({ id, key, place, reading, before });
    } catch {
      this.failed = true;
    }
  }

  #ratingOf(key: string, read: Map<string, PlantReadings>): string | undefined {
    const listed = read.get(key)?.ids.findLast((id) => !this.#removed.has(id));
    return listed ?? (this.last?.key === key ? this.last.id : undefined);
  }

  #landed(last: Last): void {
    this.failed = false;
    this.takenBack = null;
    this.last = last;
    this.undoable = true;
    navigator.vibrate?.(BUZZ_MS);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.undoable = false), UNDO_MS);
    this.spot = null;
    if (this.chosen === last.key) this.#moveOn(last.key);
  }

  #moveOn(from: string): void {
    const { order, read } = this.#bedside();
    const plant = plantNumber(from);
    const done = donePlants(read);
    if (plant !== null) done.add(plant);
    this.#choosePlant(nextPlant(order, done, plant));
  }

  #choosePlant(plant: number | null): void {
    this.chosen = plant === null ? null : `p${plant}`;
  }

  #place(key: string): GallRating["place"] {
    const { plants, read } = this.#bedside();
    const plant = plantNumber(key);
    const [x_cm, y_cm] = (plant !== null ? plants[plant - 1] : this.spot) ?? [0, 0];
    const known = read.get(key)?.place;
    return { x_cm: known?.x_cm ?? x_cm, y_cm: known?.y_cm ?? y_cm, plant };
  }
}

function plantNumber(key: string): number | null {
  return key.startsWith("p") ? Number(key.slice(1)) : null;
}

function donePlants(read: Map<string, PlantReadings>): Set<number> {
  return new Set([...read.values()].flatMap(({ plant }) => (plant === null ? [] : [plant])));
}
