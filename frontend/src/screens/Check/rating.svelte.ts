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
  /** The person's own readings by their id: another's is never written over, a second one stands beside it. */
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
  /** The person went to that plant themselves; the screen moving on after a grade does not count. */
  picked = $state(false);
  /** A spot that was tapped where no plant was laid out. */
  spot = $state<Point | null>(null);
  last = $state<Last | null>(null);
  undoable = $state(false);
  /** A tap that came too soon after the one before: saved only when the person says so. */
  asking = $state<{ key: string; state: Reading["state"]; grade: number | null } | null>(null);
  /** The plant whose reading could not be saved, until it is. */
  failed = $state<string | null>(null);
  takenBack = $state<string | null>(null);

  #bedside: () => Bedside;
  #queue: Promise<void> = Promise.resolve();
  #lastTap = { at: -TWICE_MS, state: "", grade: null as number | null };
  /** Plants tapped here; the list read from the phone may not hold them yet. */
  #tapped = new Set<string>();
  /** What was saved here, by plant. */
  #made = new Map<string, { id: string; reading: Reading }>();
  /** Taken back a moment ago; the list read from the phone may still hold it. */
  #removed = new Set<string>();
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(bedside: () => Bedside) {
    this.#bedside = bedside;
  }

  /** The first plant to dig when the screen opens. */
  begin(): void {
    const { order, read } = this.#bedside();
    this.#choosePlant(nextPlant(order, donePlants(read.keys())));
  }

  pick(key: string): void {
    this.chosen = key;
    this.picked = true;
    this.asking = null;
    this.#lastTap.at = -TWICE_MS; // going to a plant is meant; the next tap is no slip of the thumb
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
    this.asking = again ? { key, state, grade } : null;
    if (!again) this.#rate(key, state, grade);
  }

  confirmTwice(yes: boolean): void {
    const asked = this.asking;
    this.asking = null;
    if (asked && yes) this.#rate(asked.key, asked.state, asked.grade);
  }

  undo(): Promise<void> {
    return this.#enqueue(() => this.#undo());
  }

  /** The plant is settled at the tap, and the next one is up at once; should saving fail, this one is up again. */
  #rate(key: string, state: Reading["state"], grade: number | null): void {
    const place = this.#place(key);
    const reading: Reading = { state, grade, gall_scale: this.#bedside().scale, trace_only: false };
    this.#tapped.add(key);
    this.picked = false;
    this.spot = null;
    if (this.chosen === key) this.#moveOn(key);
    void this.#enqueue(() => this.#write(key, place, reading));
  }

  #enqueue(work: () => Promise<void>): Promise<void> {
    this.#queue = this.#queue.then(work);
    return this.#queue;
  }

  async #write(key: string, place: GallRating["place"], reading: Reading): Promise<void> {
    const { garden, check, docs } = this.#bedside();
    const known = this.#ratingOf(key);
    const before = known ? (docs.get(known)?.reading ?? this.#made.get(key)?.reading ?? null) : null;
    try {
      const id = known ?? (await create(garden, "gall_rating", { root_check: check, place, reading, rated_at: now() }));
      if (known) await change(garden, "gall_rating", known, { reading });
      this.#landed({ id, key, place, reading, before });
    } catch {
      this.#missed(key, place);
    }
  }

  async #undo(): Promise<void> {
    const { last } = this;
    if (!last || !this.undoable) return;
    const { garden } = this.#bedside();
    try {
      if (last.before) await change(garden, "gall_rating", last.id, { reading: last.before });
      else await remove(garden, "gall_rating", last.id);
    } catch {
      this.failed = last.key;
      return;
    }
    if (last.before) this.#made.set(last.key, { id: last.id, reading: last.before });
    else this.#forget(last);
    if (this.failed === last.key) this.failed = null;
    this.last = null;
    this.undoable = false;
    this.takenBack = last.key;
    this.#backTo(last.key, last.place);
  }

  #landed(last: Last): void {
    if (this.failed === last.key) this.failed = null;
    this.#made.set(last.key, { id: last.id, reading: last.reading });
    this.takenBack = null;
    this.last = last;
    this.undoable = true;
    navigator.vibrate?.(BUZZ_MS);
    clearTimeout(this.#timer);
    this.#timer = setTimeout(() => (this.undoable = false), UNDO_MS);
  }

  #missed(key: string, place: GallRating["place"]): void {
    if (!this.#made.has(key)) this.#tapped.delete(key);
    this.undoable = false; // undo would take back an older plant than the one just tapped
    if (this.failed !== null) return;
    this.failed = key;
    this.#backTo(key, place);
  }

  #backTo(key: string, { x_cm, y_cm, plant }: GallRating["place"]): void {
    this.asking = null;
    this.chosen = key;
    this.picked = true;
    this.spot = plant === null ? [x_cm, y_cm] : null;
  }

  #forget({ id, key }: Last): void {
    this.#removed.add(id);
    this.#made.delete(key);
    this.#tapped.delete(key);
  }

  #ratingOf(key: string): string | undefined {
    const { read, docs } = this.#bedside();
    const listed = read.get(key)?.ids.findLast((id) => docs.has(id) && !this.#removed.has(id));
    return listed ?? this.#made.get(key)?.id;
  }

  #moveOn(from: string): void {
    const { order, read } = this.#bedside();
    this.#choosePlant(nextPlant(order, donePlants([...read.keys(), ...this.#tapped]), plantNumber(from)));
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

function donePlants(keys: Iterable<string>): Set<number> {
  return new Set([...keys].flatMap((key) => plantNumber(key) ?? []));
}
