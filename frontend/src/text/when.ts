// Days and moments in words a grower uses. No sum here is more than counting days.
const DAY_MS = 86_400_000;

function counted(n: number, one: string, many: string): string {
  return n === 1 ? `1 ${one} ago` : `${n} ${many} ago`;
}

/** How long before `today` a day was: "today", "5 days ago", "3 weeks ago", "2 years ago". */
export function age(day: string, today: string): string {
  const days = Math.round((Date.parse(today) - Date.parse(day)) / DAY_MS);
  if (Number.isNaN(days)) return day;
  if (days < 0) return `on ${dayWords(day)}`;
  if (days === 0) return "today";
  if (days === 1) return "yesterday";
  if (days < 14) return counted(days, "day", "days");
  const months = wholeMonths(day, today);
  if (months < 2) return counted(Math.floor(days / 7), "week", "weeks");
  return months < 24 ? counted(months, "month", "months") : counted(Math.floor(months / 12), "year", "years");
}

/** By the calendar: from 31 January to 28 February is none yet. */
function wholeMonths(from: string, to: string): number {
  const [a, b] = [new Date(from), new Date(to)];
  const months = (b.getUTCFullYear() - a.getUTCFullYear()) * 12 + b.getUTCMonth() - a.getUTCMonth();
  return b.getUTCDate() < a.getUTCDate() ? months - 1 : months;
}

/** A day as people write it: "14 Jun 2026". */
export function dayWords(day: string): string {
  const date = new Date(`${day}T12:00:00`);
  if (Number.isNaN(date.getTime())) return day;
  return date.toLocaleDateString("en-GB", { day: "numeric", month: "short", year: "numeric" });
}

/** A near day with its weekday: "Mon 15 Jun". */
export function weekdayWords(day: string): string {
  const date = new Date(`${day}T12:00:00`);
  if (Number.isNaN(date.getTime())) return day;
  return date.toLocaleDateString("en-GB", { weekday: "short", day: "numeric", month: "short" });
}

/** The clock time of a moment here: "10:02". */
export function clock(moment: string): string {
  const date = new Date(moment);
  if (Number.isNaN(date.getTime())) return "";
  return date.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" });
}
