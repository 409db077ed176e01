/** Text as every database takes it: well-formed Unicode, no NUL. A cut emoji would otherwise stop the whole outbox. */

const LONE_SURROGATE = /[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g;

export function storable<T>(value: T): T {
  if (typeof value === "string") return value.replaceAll("\0", "").replace(LONE_SURROGATE, "\uFFFD") as T;
  if (Array.isArray(value)) return value.map(storable) as T;
  if (value === null || typeof value !== "object" || Object.getPrototypeOf(value) !== Object.prototype) return value;
  return Object.fromEntries(
    Object.entries(value).flatMap(([key, inner]) => (inner === undefined ? [] : [[key, storable(inner)]])),
  ) as T;
}
