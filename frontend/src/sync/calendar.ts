/** The secret address under which a calendar program fetches what is due, and the same as a file. */
import { ask, getJson, postJson, unsafe, whole } from "./api";

export interface CalendarAddress {
  made_at: string | null;
}

/** All of these throw Refused; status 0 means the server could not be reached. */
export function calendarAddress(): Promise<CalendarAddress> {
  return getJson<CalendarAddress>("/calendar");
}

/** The address is told once, and makes the one before it void. */
export async function makeCalendarAddress(): Promise<string> {
  return (await postJson<{ url: string }>("/calendar", {})).url;
}

export async function endCalendarAddress(): Promise<void> {
  await unsafe("DELETE", "/calendar");
}

export async function fetchCalendarFile(garden: string): Promise<Blob> {
  return whole((await ask("GET", `/gardens/${garden}/calendar.ics`)).blob());
}
