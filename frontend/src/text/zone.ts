// Hours on the garden's own clock and back to the moments that are stored. A zone is a name of the IANA time zone database.

type Parts = Record<string, string>;

/** A zone this phone knows; UTC for any other text, as the printed sheet does. */
export function knownZone(name: string): string {
  try {
    new Intl.DateTimeFormat("en", { timeZone: name });
    return name;
  } catch {
    return "UTC";
  }
}

export const phoneZone = (): string => Intl.DateTimeFormat().resolvedOptions().timeZone || "UTC";

/** A moment on the zone's clock, as a box for day and hour wants it: "2031-08-03T09:30"; empty for none. */
export function hourIn(zone: string, moment: string | null): string {
  const at = new Date(moment ?? "");
  if (Number.isNaN(at.getTime())) return "";
  const asked = { year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit", hourCycle: "h23" } as const;
  const said = new Intl.DateTimeFormat("en", { ...asked, timeZone: knownZone(zone) }).formatToParts(at);
  const { year, month, day, hour, minute } = Object.fromEntries(said.map(({ type, value }) => [type, value])) as Parts;
  return `${year!.padStart(4, "0")}-${month}-${day}T${hour}:${minute}`;
}

/** The day on the zone's clock at a moment: "2031-08-03". */
export const dayIn = (zone: string, moment: string): string => hourIn(zone, moment).slice(0, 10);

export const todayIn = (zone: string, now: Date = new Date()): string => dayIn(zone, now.toISOString());

/** Whether two zones' clocks show the same hour now, in January and in July: then no day and no hour differs between them. */
export function sameClock(zone: string, other: string, now: Date = new Date()): boolean {
  const moments = [now, ...[0, 6].map((month) => new Date(Date.UTC(now.getUTCFullYear(), month, 1)))].map((at) => at.toISOString());
  return moments.every((moment) => hourIn(zone, moment) === hourIn(other, moment));
}

/** Every zone this browser can name, or none when it cannot list them. */
export const zoneNames = (): string[] => Intl.supportedValuesOf?.("timeZone") ?? [];

/** As a person reads it: "America/New York". */
export const zoneWords = (zone: string): string => zone.replaceAll("_", " ");

/** The moment at which the zone's clock shows an hour: "2031-08-03T07:30:00Z"; null when it is no hour. */
export function momentOf(zone: string, hour: string): string | null {
  const asUtc = Date.parse(`${hour}Z`);
  if (Number.isNaN(asUtc)) return null;
  const ahead = (at: number) => Date.parse(`${hourIn(zone, new Date(at).toISOString())}Z`) - at;
  const near = asUtc - ahead(asUtc);
  // Once more at the found moment: the clock may have been changed between the two.
  return `${new Date(asUtc - ahead(near)).toISOString().slice(0, 19)}Z`;
}
