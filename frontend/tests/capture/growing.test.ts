import { expect, test } from "vitest";
import { growingIn } from "../../src/capture/growing.ts";
import { withDefaults } from "../../src/db/kinds.ts";

const planting = (id: string, from_on: string, to_on: string | null = null, bed = "b") => ({
  id, kind: "planting" as const, garden: "g", seq: 1, unsent: false, parked: false, by: "",
  doc: withDefaults("planting", { bed, crop: "Okra", grown: { from_on, to_on } }),
});

test("a new sample is taken for what stands in its bed, the last planted first", () => {
  expect(growingIn("b", [], "2031-08-03")).toBeNull();
  expect(growingIn("b", [planting("p", "2031-05-02"), planting("q", "2031-06-02"), planting("r", "2031-07-02", null, "c")], "2031-08-03")).toBe("q");
  expect(growingIn("b", [planting("ended", "2031-05-02", "2031-08-02"), planting("later", "2031-08-04")], "2031-08-03")).toBeNull();
  expect(growingIn("b", [planting("last day", "2031-05-02", "2031-08-03")], "2031-08-03")).toBe("last day");
});
