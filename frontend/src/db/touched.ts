/** What of a record a person changed: only that travels, so another phone's word on the other fields stands. */

/** The fields of `now` whose value differs from the one in `before`. */
export function touched<T extends object>(before: object, now: T): Partial<T> {
  const was = before as Record<string, unknown>;
  return Object.fromEntries(Object.entries(now).filter(([field, value]) => plain(value) !== plain(was[field]))) as Partial<T>;
}

/** The same text for the same value, however its parts are ordered. */
function plain(value: unknown): string {
  const sorted = (_: string, part: unknown) => (part instanceof Object && !Array.isArray(part) ? Object.fromEntries(Object.entries(part).sort()) : part);
  return JSON.stringify(value, sorted) ?? "";
}
