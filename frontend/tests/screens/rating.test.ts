import { beforeEach, expect, test, vi } from "vitest";
import { byPlant } from "../../src/capture/tally.ts";
import { withDefaults, type GallRating, type Point } from "../../src/db/kinds.ts";
import { Rating } from "../../src/screens/Check/rating.svelte.ts";

/** Saves that end when the test says so, in the order they were asked for. */
const asked = vi.hoisted(() => [] as { what: string; doc: Partial<GallRating>; end: (ok?: boolean) => void }[]);

vi.mock("../../src/db/save", () => {
  const held = (what: string, doc: Partial<GallRating>) =>
    new Promise<string>((resolve, reject) => {
      asked.push({ what, doc, end: (ok = true) => (ok ? resolve(`id${asked.length}`) : reject(new Error("full"))) });
    });
  return {
    now: () => "2026-08-01T09:00:00.000Z",
    create: (_garden: string, _kind: string, doc: Partial<GallRating>) => held("create", doc),
    change: (_garden: string, _kind: string, id: string, doc: Partial<GallRating>) => held(`change ${id}`, doc),
    remove: (_garden: string, _kind: string, id: string) => held(`remove ${id}`, {}),
  };
});

const PLANTS: Point[] = [[10, 10], [20, 10], [30, 10], [40, 10]];
const settle = () => new Promise((done) => setTimeout(done));

interface Rated {
  id: string;
  by: string;
  doc: GallRating;
}

function bedside(ratings: Rated[] = [], plants = PLANTS) {
  const rating = new Rating(() => ({
    garden: "g",
    check: "c",
    scale: "pct10",
    plants,
    order: plants.map((_, i) => i + 1),
    read: new Map(byPlant(ratings).map((read) => [read.key, read])),
    docs: new Map(ratings.filter(({ by }) => by === "me").map(({ id, doc }) => [id, doc])),
  }));
  rating.begin();
  return rating;
}

function rated(id: string, plant: number, grade: number, by = "me"): Rated {
  const reading = { state: "rated", grade, gall_scale: "pct10", trace_only: false } as const;
  const place = { x_cm: 10 * plant, y_cm: 10, plant };
  return { id, by, doc: withDefaults("gall_rating", { root_check: "c", place, reading, rated_at: "2026-08-01T08:00:00.000Z" }) };
}

async function endNext(ok = true) {
  await settle();
  asked.at(-1)!.end(ok);
  await settle();
}

beforeEach(() => {
  asked.length = 0;
  vi.useRealTimers();
});

test("two different grades tapped before the first is saved go to two plants", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  rating.tap("rated", 7);
  await endNext();
  await endNext();
  expect(asked.map(({ what, doc }) => [what, doc.place?.plant, doc.reading?.grade])).toEqual([["create", 1, 3], ["create", 2, 7]]);
  expect(rating.chosen).toBe("p3");
});

test("a plant whose grade could not be saved is up again and is said, until it is saved", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  expect(rating.chosen).toBe("p2");
  await endNext(false);
  expect([rating.chosen, rating.failed, rating.undoable]).toEqual(["p1", "p1", false]);
  rating.pick("p3");
  rating.tap("rated", 5);
  await endNext();
  expect(rating.failed).toBe("p1");
  rating.pick("p1");
  rating.tap("rated", 3);
  await endNext();
  expect([rating.failed, rating.chosen]).toEqual([null, "p2"]);
});

test("a spot whose grade could not be saved is there again", async () => {
  const rating = bedside([], []);
  rating.pickGround([12.4, 30.2]);
  rating.tap("rated", 4);
  expect([rating.chosen, rating.spot]).toEqual([null, null]);
  await endNext(false);
  expect([rating.chosen, rating.spot]).toEqual(["s12-30", [12, 30]]);
});

test("the same grade within a second asks, and rates only when the answer is yes", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  rating.tap("rated", 3);
  expect(rating.asking).toMatchObject({ key: "p2", grade: 3 });
  rating.confirmTwice(true);
  await endNext();
  await endNext();
  expect(asked.map(({ doc }) => doc.place?.plant)).toEqual([1, 2]);
});

test("a question nobody answered is gone with the next grade and with the next plant", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  rating.tap("rated", 3);
  rating.tap("rated", 8);
  expect(rating.asking).toBeNull();
  rating.confirmTwice(true);
  await endNext();
  await endNext();
  expect(asked.map(({ doc }) => [doc.place?.plant, doc.reading?.grade])).toEqual([[1, 3], [2, 8]]);
  rating.tap("rated", 8);
  expect(rating.asking).not.toBeNull();
  rating.pick("p4");
  expect(rating.asking).toBeNull();
});

test("a plant chosen by hand is rated at once, with the same grade as the one before", () => {
  const rating = bedside();
  rating.tap("rated", 3);
  rating.pick("p4");
  rating.tap("rated", 3);
  expect(rating.asking).toBeNull();
});

test("a plant rated twice before the list is read anew is one rating, changed", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  rating.pick("p1");
  rating.tap("rated", 6);
  await endNext();
  await endNext();
  expect(asked.map(({ what }) => what)).toEqual(["create", "change id1"]);
  expect(rating.last?.before?.grade).toBe(3);
});

test("undo waits for what was tapped before it, and takes back that", async () => {
  const rating = bedside([rated("old", 1, 2)]);
  expect(rating.chosen).toBe("p2");
  rating.pick("p1");
  rating.tap("rated", 9);
  const undone = rating.undo();
  await endNext();
  await endNext();
  await undone;
  expect(asked.map(({ what, doc }) => [what, doc.reading?.grade])).toEqual([["change old", 9], ["change old", 2]]);
  expect([rating.chosen, rating.takenBack]).toEqual(["p1", "p1"]);
});

test("after a plant was taken back it is the next one again, as a new rating", async () => {
  const rating = bedside();
  rating.tap("rated", 3);
  await endNext();
  const undone = rating.undo();
  await endNext();
  await undone;
  rating.tap("rated", 4);
  await endNext();
  expect(asked.map(({ what }) => what)).toEqual(["create", "remove id1", "create"]);
  expect(rating.chosen).toBe("p2");
});

test("only a plant the person went to counts as picked", async () => {
  const rating = bedside();
  expect(rating.picked).toBe(false);
  rating.pick("p3");
  expect(rating.picked).toBe(true);
  rating.tap("rated", 3);
  expect(rating.picked).toBe(false);
});

test("a grade for a plant that somebody else rated is a second reading beside theirs", async () => {
  const rating = bedside([rated("theirs", 1, 4, "Ana")]);
  rating.pick("p1");
  rating.tap("rated", 3);
  await endNext();
  expect(asked.map(({ what, doc }) => [what, doc.reading?.grade])).toEqual([["create", 3]]);
});

test("a second thought about one's own reading changes it and leaves the other's alone", async () => {
  const rating = bedside([rated("mine", 1, 3), rated("theirs", 1, 4, "Ana")]);
  rating.pick("p1");
  rating.tap("rated", 2);
  await endNext();
  expect(asked.map(({ what }) => what)).toEqual(["change mine"]);
});
