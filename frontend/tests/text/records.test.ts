import { expect, test } from "vitest";
import { fieldWords, momentWords, type Naming, recordWords, valueWords } from "../../src/text/en/records.ts";

const records: Record<string, Record<string, unknown>> = {
  b1: { name: "North bed" },
  p1: { crop: "Okra", bed: "b1" },
  c1: { planting: "p1", checked_on: "2031-05-03" },
  s1: { code: "K7M2H", bed: "b1" },
};
const kinds: Record<string, string> = { b1: "bed", p1: "planting", c1: "root_check", s1: "soil_sample" };
const naming: Naming = { units: "metric", find: (kind, id) => (kinds[id] === kind ? records[id] : undefined) };
const reading = { state: "rated", grade: 4, gall_scale: "pct10", trace_only: false };

test("a rating is named by its plant, its grade and its bed", () => {
  const rating = { root_check: "c1", place: { x_cm: 10, y_cm: 20, plant: 7 }, reading };
  expect(recordWords("gall_rating", rating, naming)).toBe("Plant 7, grade 4, North bed");
});

test("a rating whose check is not on this phone still has a name", () => {
  const rating = { root_check: "gone", place: { x_cm: 10, y_cm: 20, plant: null }, reading: { ...reading, state: "dead", grade: null } };
  expect(recordWords("gall_rating", rating, naming)).toBe("10 cm across, 20 cm down, dead");
});

test("samples, checks, plantings and photos are named by what they hang on", () => {
  expect(recordWords("soil_sample", records["s1"]!, naming)).toBe("Sample K7M2-H, North bed");
  expect(recordWords("root_check", records["c1"]!, naming)).toBe("Root check, Okra, North bed, 3 May 2031");
  expect(recordWords("planting", records["p1"]!, naming)).toBe("Okra, North bed");
  expect(recordWords("photo", { of: { kind: "soil_sample", id: "s1" } }, naming)).toBe("Photo of Sample K7M2-H, North bed");
});

test("values are said in words and in the garden's own measure", () => {
  const us: Naming = { ...naming, units: "us" };
  expect(valueWords("reading", { ...reading, grade: 1, trace_only: true }, naming)).toBe("grade 1, a trace only");
  expect(valueWords("moisture", "dust_dry", naming)).toBe("Falls to dust");
  expect(valueWords("shape", { type: "rectangle", width_cm: 122, length_cm: 244 }, us)).toBe("4 ft × 8 ft");
  expect(valueWords("soil_temperature_celsius", 24.5, naming)).toBe("24.5 °C");
  expect(valueWords("soil_temperature_celsius", 24.5, us)).toBe("76.1 °F");
  expect(valueWords("depth", { from_cm: 5, to_cm: 25 }, naming)).toBe("5 cm to 25 cm deep");
  expect(valueWords("tests_wanted", ["species_id", "egg_count"], naming)).toBe("Tell the species, Count eggs");
  expect(valueWords("parcel", { sent_on: "2031-05-03", arrived_on: null }, naming)).toBe("sent 3 May 2031");
  expect(valueWords("bed", "b1", naming)).toBe("North bed");
  expect(valueWords("irrigated", false, naming)).toBe("no");
});

test("a stored moment is said by the garden's clock", () => {
  expect(valueWords("lifted_at", "2031-05-03T23:30:00Z", { ...naming, zone: "Asia/Kolkata" })).toBe("4 May 2031, 05:00");
  expect(valueWords("lifted_at", "2031-05-03T23:30:00Z", { ...naming, zone: "UTC" })).toBe("3 May 2031, 23:30");
});

test("nothing is called nothing, and a deletion is told from a value", () => {
  for (const empty of [null, undefined, "", []]) expect(valueWords("note", empty, naming)).toBe("nothing");
  expect(valueWords("deleted", true, naming)).toBe("removed");
  expect(valueWords("deleted", false, naming)).toBe("still there");
});

test("a field without a word of its own is still readable", () => {
  expect(fieldWords("n_cores")).toBe("cores");
  expect(fieldWords("some_new_field")).toBe("some new field");
});

test("a moment of today is a clock time, an older one has its day", () => {
  const now = new Date("2031-05-03T12:00:00Z");
  expect(momentWords("2031-05-03T10:31:00Z", now)).toBe("10:31");
  expect(momentWords("2031-05-01T10:31:00Z", now)).toBe("1 May 2031, 10:31");
  expect(momentWords("not a time", now)).toBe("not a time");
});
