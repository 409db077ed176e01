import fc from "fast-check";
import { expect, test, vi } from "vitest";
import { dayIn, hourIn, knownZone, momentOf, sameClock, todayIn } from "../../src/text/zone.ts";

// Offsets as the IANA time zone database has them for these days (from memory): Kolkata +05:30 all year, New York −04:00 in summer and
// −05:00 in winter, Paris +02:00 in summer and +01:00 in winter, Kiritimati +14:00.
test.each([
  ["Asia/Kolkata", "2026-07-01T04:00:00Z", "2026-07-01T09:30"],
  ["America/New_York", "2026-07-01T03:30:00Z", "2026-06-30T23:30"],
  ["America/New_York", "2026-01-15T05:00:00Z", "2026-01-15T00:00"],
  ["Europe/Paris", "2026-07-01T07:30:00Z", "2026-07-01T09:30"],
  ["Europe/Paris", "2026-12-01T07:30:00Z", "2026-12-01T08:30"],
  ["Pacific/Kiritimati", "2026-12-31T12:00:00Z", "2027-01-01T02:00"],
  ["UTC", "2026-12-31T12:00:00Z", "2026-12-31T12:00"],
])("an hour is shown and entered by the garden's clock: %s %s", (zone, moment, hour) => {
  expect(hourIn(zone, moment)).toBe(hour);
  expect(momentOf(zone, hour)).toBe(moment);
  expect(dayIn(zone, moment)).toBe(hour.slice(0, 10));
});

test("an hour typed near the day the clock is changed comes back as it was typed", () => {
  for (const hour of ["2026-03-29T01:59", "2026-03-29T03:00", "2026-10-25T01:59", "2026-10-25T03:00"]) {
    expect(hourIn("Europe/Paris", momentOf("Europe/Paris", hour))).toBe(hour);
  }
});

test("every shown hour leads back to an hour that looks the same, in any zone", () => {
  const zones = fc.constantFrom("Africa/Accra", "America/St_Johns", "Asia/Kathmandu", "Australia/Lord_Howe", "Pacific/Auckland", "Europe/London");
  const minutes = fc.integer({ min: Date.UTC(2020, 0, 1) / 60_000, max: Date.UTC(2040, 0, 1) / 60_000 });
  fc.assert(
    fc.property(zones, minutes, (zone, minute) => {
      const hour = hourIn(zone, new Date(minute * 60_000).toISOString());
      expect(hourIn(zone, momentOf(zone, hour))).toBe(hour);
    }),
  );
});

test("no hour stays no hour, and a zone nobody knows is UTC as on the printed sheet", () => {
  expect(hourIn("UTC", null)).toBe("");
  expect(hourIn("UTC", "soon")).toBe("");
  expect(momentOf("UTC", "")).toBeNull();
  expect(knownZone("Nowhere/Land")).toBe("UTC");
  expect(hourIn("Nowhere/Land", "2026-07-01T04:00:00Z")).toBe("2026-07-01T04:00");
});

test("at one moment it is three different days around the date line, whatever the phone's own zone", () => {
  // Kiritimati is 14 hours ahead of UTC, Pago Pago 11 behind, all year (IANA time zone database, from memory).
  const now = new Date("2026-07-01T10:30:00Z");
  for (const phone of ["Pacific/Kiritimati", "Pacific/Pago_Pago", "UTC"]) {
    vi.stubEnv("TZ", phone);
    const days = ["Pacific/Kiritimati", "UTC", "Pacific/Pago_Pago"].map((zone) => todayIn(zone, now));
    expect(days).toEqual(["2026-07-02", "2026-07-01", "2026-06-30"]);
  }
  vi.unstubAllEnvs();
});

test.each([
  ["Europe/Paris", "Europe/Berlin", true],
  ["Europe/Paris", "Europe/London", false],
  ["Australia/Sydney", "Australia/Brisbane", false], // alike in July, an hour apart in January (from memory)
  ["UTC", "Nowhere/Land", true],
])("whether %s and %s show one hour all year", (zone, other, same) => {
  expect(sameClock(zone, other, new Date("2026-07-20T10:00:00Z"))).toBe(same);
});
