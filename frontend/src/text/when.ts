// Days and moments in words a grower uses. No sum here is more than counting days.
const DAY_MS = 86_400_000;

/** Today's day on this phone, YYYY-MM-DD. */
export function today(now: Date = new Date()): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function counted(n: number, one: string, many: string): string {
  return n === 1 ? `1 ${one} ago` : `${n} ${many} ago`;
}

/** How long ago a day was: "today", "5 days ago", "3 weeks ago", "2 years ago". */
export function age(day: string, now: string = today()): string {
  const days = Math.round((Date.parse(now) - Date.parse(day)) / DAY_MS);
  if (Number.isNaN(days)) return day;
  if (days < 0) return `on ${dayWords(day)}`;
  if (days === 0) return "today";
  if (days === 1) return "yesterday";
  if (days < 14) return counted(days, "day", "days");
  if (days < 60) return counted(Math.floor(days / 7), "week", "weeks");
  if (days < 730) return counted(Math.floor(days / 30.44), "month", "months");
  return counted(Math.floor(days / 365.25), "year", "years");
}

/** A day as people write it: "14 Jun 2026". */
export function dayWords(day: string): string {
  const date = new Date(`${day}T12:00:00`);
  if (Number.isNaN(date.getTime())) return day;
  return date.toLocaleDateString("en-GB", { day: "numeric", month: "short", year: "numeric" });
}

/** The clock time of a moment here: "10:02". */
export function clock(moment: string): string {
  const date = new Date(moment);
  if (Number.isNaN(date.getTime())) return "";
  return date.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
}
