import { expect, test } from "vitest";
import type { LabForm } from "../../src/db/kinds";
import type { FormRead } from "../../src/db/told";
import { emptied, guessed, lineAt, linesOf, matched, newSpot, plainMatch } from "../../src/screens/OwnForm/matching";
import { lineWords, matchWords } from "../../src/screens/OwnForm/words";

const field = (name: string, box: number[], guess: FormRead["fields"][number]["guess"] = null) => ({ field: name, type: "text" as const, options: [], page: 1, box, label: name, guess });
const READ: FormRead = {
  kind: "fields",
  pages: [{ width_pt: 595, height_pt: 842 }],
  fields: [field("Bag", [50, 100, 150, 115], { fill: "sample_code", row: 1, when: "" }), field("Name", [50, 130, 150, 145]), field("Odd", [400, 700, 500, 715])],
};
const EMPTY: LabForm = { paper: "p", fields: [], spots: [] };
const NAME = { fill: "grower_name", row: 1, when: "", words: "" } as const;

test("a tap means the line it is in, else the nearest within a thumb's width, else none", () => {
  const lines = linesOf(EMPTY, READ);
  expect(lineAt(lines, 1, 100, 107)?.label).toBe("Bag");
  expect(lineAt(lines, 1, 100, 124)?.label).toBe("Name");
  expect(lineAt(lines, 1, 300, 400)).toBeNull();
  expect(lineAt(lines, 2, 100, 107)).toBeNull();
});

test("a line is matched once, matched anew, and left empty again", () => {
  const [, name] = linesOf(EMPTY, READ);
  const once = matched(EMPTY, name!, [NAME]);
  expect(once.fields).toEqual([{ field: "Name", ...NAME }]);
  const twice = matched(once, name!, [{ ...NAME, fill: "grower_email" }]);
  expect(twice.fields).toEqual([{ field: "Name", ...NAME, fill: "grower_email" }]);
  expect(matched(twice, name!, []).fields).toEqual([]);
});

test("the guesses fill the lines that nobody has matched, and no other", () => {
  const [bag] = linesOf(EMPTY, READ);
  const own = matched(EMPTY, bag!, [NAME]);
  expect(guessed(own, linesOf(own, READ))).toEqual(own);
  expect(guessed(EMPTY, linesOf(EMPTY, READ)).fields).toEqual([{ field: "Bag", fill: "sample_code", row: 1, when: "", words: "" }]);
});

test("a spot stays in its order when it is changed, and on the page when it is near the edge", () => {
  const spot = newSpot(1, 580.6, 100.2, READ.pages[0]!);
  expect(spot).toMatchObject({ x_pt: 581, y_pt: 100, width_pt: 14 });
  const flat: FormRead = { ...READ, kind: "flat", fields: [] };
  const blank = { key: "s:0", page: 1, box: null, label: "", read: null, spot, matches: [], guess: null };
  const one = matched(EMPTY, blank, [NAME]);
  const two = matched(one, { ...blank, key: "s:1" }, [{ ...NAME, fill: "note" }]);
  const changed = matched(two, linesOf(two, flat)[0]!, [{ ...NAME, fill: "depth" }]);
  expect(changed.spots.map(({ fill }) => fill)).toEqual(["depth", "note"]);
  expect(matched(changed, linesOf(changed, flat)[0]!, []).spots.map(({ fill }) => fill)).toEqual(["note"]);
});

test("without the lines of the PDF what was matched is still listed", () => {
  const form = matched(EMPTY, linesOf(EMPTY, READ)[1]!, [NAME]);
  expect(linesOf(form, null)).toMatchObject([{ label: "Name", box: null, matches: [NAME] }]);
});

test("what means nothing for a choice is not kept with it", () => {
  expect(plainMatch({ fill: "grower_name", row: 3, when: "yes", words: "x" })).toEqual(NAME);
  expect(plainMatch({ fill: "purpose", row: 2, when: "predict", words: "" })).toEqual({ fill: "purpose", row: 2, when: "predict", words: "" });
});

test("a match is said in plain words, and its bag where there is more than one", () => {
  expect(matchWords([{ fill: "sample_code", row: 2, when: "", words: "" }], true)).toBe("Bag code, bag 2");
  expect(matchWords([NAME], true)).toBe("Your name");
  expect(matchWords([{ fill: "has_roots", row: 1, when: "no", words: "" }], false)).toBe("tick for “No” (Roots in the bag)");
  expect(matchWords([{ fill: "words", row: 1, when: "", words: "see letter" }], false)).toBe("“see letter”");
  expect(lineWords({ ...linesOf(EMPTY, READ)[0]!, spot: newSpot(1, 1, 1, READ.pages[0]!) }, 4)).toBe("Spot 4");
});

test("where the form has answers of its own, each of ours is told which, and no guess is taken for it", () => {
  const own = { field: "why", type: "radio" as const, options: ["Diag", "Plan"], page: 1, box: [0, 0, 9, 9], label: "Why", guess: { fill: "purpose", row: 1, when: "" } };
  const read: FormRead = { ...READ, fields: [own] };
  expect(guessed(EMPTY, linesOf(EMPTY, read))).toEqual(EMPTY);
  const match = (when: string, words: string) => ({ fill: "purpose" as const, row: 1, when, words });
  const form = matched(EMPTY, linesOf(EMPTY, read)[0]!, [match("diagnose", "Diag"), match("predict", "Plan")]);
  expect(form.fields).toEqual([{ field: "why", ...match("diagnose", "Diag") }, { field: "why", ...match("predict", "Plan") }]);
  expect(matchWords(linesOf(form, read)[0]!.matches, false)).toBe("Why the sample was taken, as Diag, Plan");
});

test("another PDF of the lab keeps what was matched on lines of the same name", () => {
  const [bag, name] = linesOf(EMPTY, READ);
  const form = matched(matched(EMPTY, bag!, [{ ...NAME, fill: "sample_code" }]), name!, [NAME]);
  expect(emptied("q", form, { ...READ, fields: READ.fields.slice(0, 1) })).toEqual({ paper: "q", fields: [{ field: "Bag", ...NAME, fill: "sample_code" }], spots: [] });
  expect(emptied("q", null, READ)).toEqual({ paper: "q", fields: [], spots: [] });
});
