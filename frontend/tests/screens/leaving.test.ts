import { expect, test } from "vitest";
import { planLines, reasons, savedLines, wrongOf } from "../../src/screens/Leaving/outcome";
import type { Arrival } from "../../src/sync/carrying";
import { Refused } from "../../src/sync/api";

const arrival: Arrival = {
  garden: "0199-g",
  name: "Behind the mill",
  state: "new",
  done: false,
  n_records: { bed: 1, gall_rating: 12, conflict: 3 },
  n_photos: 2,
  n_changes: 40,
  n_only_here: 0,
  n_conflicts: 0,
  refused: [],
};

test("a new garden is told by what is in it, and by nothing a gardener never heard of", () => {
  expect(planLines(arrival)[0]).toBe("This file holds the garden “Behind the mill”: 1 bed, 12 plants rated and 2 photos.");
});

test("a copy of a garden that is here tells what is missing and that nothing is overwritten", () => {
  const lines = planLines({ ...arrival, state: "behind", n_changes: 1, n_photos: 0, n_only_here: 2 });
  expect(lines[0]).toBe("“Behind the mill” is on this server already. The file has 1 change that is missing here.");
  expect(lines[1]).toContain("Nothing here is overwritten");
  expect(lines[2]).toBe("2 changes here are not in the file and stay as they are.");
});

test("a copy that brings nothing says so", () => {
  expect(planLines({ ...arrival, state: "same" })).toHaveLength(1);
});

test("an empty garden has no beds yet", () => {
  expect(planLines({ ...arrival, n_records: { garden: 1 }, n_photos: 0 })[0]).toContain("no beds yet.");
});

test("a helper's file tells what came, what was here, and what was left alone", () => {
  const results = [{ status: "applied" }, { status: "conflict" }, { status: "duplicate" }, { status: "rejected" }].map((one) => ({ mid: null, kind: "bed", ...one }));
  const lines = savedLines({ author: "Ana", results, n_other_gardens: 1, photos: { stored: 1, here: 4, refused: 0 } });
  expect(lines).toEqual([
    "2 entries of Ana were brought in.",
    "1 entry was here already.",
    "1 photo or paper came with it.",
    "1 entry is of another garden and was left alone.",
  ]);
});

test("what went wrong says what is as it was", () => {
  expect(wrongOf(new Refused(0, "no_answer")).text).toContain("could not be reached");
  expect(wrongOf(new Refused(401, "login_needed")).signIn).toBe(true);
  expect(wrongOf(new Refused(413, "archive_too_large")).text).toContain("larger than the server takes");
  expect(wrongOf(new Refused(422, "archive_unreadable", null, "Damaged.")).text).toBe("Damaged.");
  expect(wrongOf(new Refused(500, "server_error", null, "The server failed.")).text).toContain("Try again later");
  expect(wrongOf(new Error("broken"))).toEqual({ text: expect.stringContaining("Nothing on this phone"), signIn: false });
});

test("each reason is said once", () => {
  expect(reasons([{ message: "A." }, { message: "A." }, {}])).toHaveLength(2);
});
