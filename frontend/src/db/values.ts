/** Values every record is made of, as they travel. */
export type Point = [number, number];
export type Day = string; // YYYY-MM-DD
export type Moment = string; // ISO-8601 UTC, ends in Z
