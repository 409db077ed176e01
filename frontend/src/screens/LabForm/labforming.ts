// What the lab form holds and how it becomes a lab profile. The lab's own form is matched on a screen of its own.
import type { Courier, LabProfile } from "../../db/kinds.ts";
import { labText as words } from "../../text/en/lab.ts";

type Typed = Omit<LabProfile, "courier" | "form">;
export interface LabEntry extends Typed {
  courier: Omit<Courier, "transit_days"> & { transit_days: number | null };
}

export const MOST_USUAL_DAYS = 200;
export const MOST_TRANSIT_DAYS = 20;
export const MOST_CLOSED = 60;
const EVERY_WORKING_DAY = [0, 1, 2, 3, 4];

export function blankEntry(): LabEntry {
  const typed = { name: "", address: "", phone: "", email: "", account_number: "", reporting_unit: "", country: "", parcel_wishes: "", note: "" };
  const courier = { transit_days: null, to_door: true, moves_on: EVERY_WORKING_DAY, words: "" };
  return { ...typed, working_days: EVERY_WORKING_DAY, closed_on: [], usual_days: null, courier };
}

export function entryOf({ form: _form, courier, ...typed }: LabProfile): Partial<LabEntry> {
  return courier ? { ...typed, courier } : typed;
}

/** Without days on the way nothing is known of the carrier. */
export function setOf({ courier, ...typed }: LabEntry): Omit<LabProfile, "form"> {
  const { transit_days } = courier;
  return { ...typed, name: typed.name.trim(), courier: transit_days === null ? null : { ...courier, transit_days } };
}

export interface Complaints {
  usual: string;
  transit: string;
  moves: string;
}

export function complaints({ usual_days, courier }: LabEntry): Complaints {
  const { transit_days, moves_on } = courier;
  return {
    usual: isWhole(usual_days, 1, MOST_USUAL_DAYS) ? "" : words.badDays(1, MOST_USUAL_DAYS),
    transit: isWhole(transit_days, 0, MOST_TRANSIT_DAYS) ? "" : words.badDays(0, MOST_TRANSIT_DAYS),
    moves: transit_days !== null && moves_on.length === 0 ? words.needsMoves : "",
  };
}

function isWhole(value: number | null, least: number, most: number): boolean {
  return value === null || (Number.isInteger(value) && value >= least && value <= most);
}

/** The day of the week put in or taken out, in order. */
export function withDay(days: number[], day: number, on: boolean): number[] {
  return [...days.filter((other) => other !== day), ...(on ? [day] : [])].sort();
}

/** A day put among the others, once. */
export function withClosed(days: string[], day: string): string[] {
  return day ? [...new Set([...days, day])].sort().slice(0, MOST_CLOSED) : days;
}
