/** A bag's way, read from its own record so that a tap shows at once; how long each step took is said by the core. */
import type { SoilSample } from "../../db/kinds.ts";
import type { SampleTold, Step } from "../../db/told.ts";

export interface Stop {
  step: Step;
  at: string | null;
  on: string | null;
  /** How long after the step before; empty while the briefing does not know it. */
  after: string;
}

type Way = Pick<SoilSample, "lifted_at" | "packed_at" | "handed_over" | "parcel" | "extracted_on">;

export function wayOf(doc: Way, reported_on: string | null, told?: SampleTold): Stop[] {
  const found: [Step, string | null, string | null][] = [
    ["lifted", doc.lifted_at, null],
    ["packed", doc.packed_at, null],
    ["handed_over", doc.handed_over?.at ?? null, doc.handed_over ? null : (doc.parcel?.sent_on ?? null)],
    ["received", null, doc.parcel?.arrived_on ?? null],
    ["extracted", null, doc.extracted_on],
    ["reported", null, reported_on],
  ];
  return found.map(([step, at, on]) => ({ step, at, on, after: at || on ? afterOf(told, step, at ?? on) : "" }));
}

/** Words about another moment than the one shown would be wrong. */
function afterOf(told: SampleTold | undefined, step: Step, when: string | null): string {
  const said = told?.steps.find((one) => one.step === step);
  const same = said && when && Date.parse(said.at ?? said.on ?? "") === Date.parse(when);
  return same ? said.after : "";
}

/** The first step that has not happened; what comes after a later one that did is not asked for any more. */
export function nextStop(stops: Stop[]): Step | null {
  const last = stops.findLastIndex(({ at, on }) => at !== null || on !== null);
  return stops[last + 1]?.step ?? null;
}

/** What a tap on "just now" or "today" saves. */
export function marked(step: Step, doc: Way, now: string, today: string): Partial<SoilSample> {
  const sent_on = doc.parcel?.sent_on ?? null;
  switch (step) {
    case "lifted":
      return { lifted_at: now };
    case "packed":
      return { packed_at: now };
    case "handed_over":
      return { handed_over: { at: now, to: "" }, parcel: { sent_on: sent_on ?? today, arrived_on: doc.parcel?.arrived_on ?? null } };
    case "received":
      return { parcel: { sent_on, arrived_on: today } };
    case "extracted":
      return { extracted_on: today };
    default:
      return {};
  }
}

/** The handling that is true at a moment: the last entry whose time has come. */
export function handlingAt(told: SampleTold | undefined, now: string): SampleTold["handling"][number] | null {
  return (told?.handling ?? []).filter(({ from_at }) => Date.parse(from_at) <= Date.parse(now)).at(-1) ?? null;
}

export function isOverdue(told: SampleTold | undefined, today: string): boolean {
  return Boolean(told?.overdue && today >= told.overdue.from_on);
}
