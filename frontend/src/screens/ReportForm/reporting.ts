/** A lab's report as the boxes of a form, and what the form makes. Counts stay as the lab wrote them. */
import type { AssayReport, Finding } from "../../db/kinds.ts";

export interface FindingForm {
  taxon: string;
  stage: Finding["stage"];
  result: Finding["result"];
  count: number | null;
  per: string;
  as_written: string;
}
export interface ReportForm {
  reported_on: string;
  lab_profile: string | null;
  method: string;
  soil: string;
  counted_pct: number | null;
  found: FindingForm[];
  species_id: string;
  hazard: string;
  comments: string;
  note: string;
}

/** A lab's unit as it stands behind "per". */
export const perOf = (unit: string): string => unit.trim().replace(/^per\s+/i, "");

export const emptyFinding = (per = ""): FindingForm => ({ taxon: "root_knot", stage: "not_said", result: "counted", count: null, per, as_written: "" });

export const emptyReport = (today: string, lab: string | null, per: string): ReportForm => ({
  reported_on: today,
  lab_profile: lab,
  method: "",
  soil: "",
  counted_pct: null,
  found: [emptyFinding(per)],
  species_id: "",
  hazard: "",
  comments: "",
  note: "",
});

export function formOf(doc: AssayReport): ReportForm {
  const { reported_on, lab_profile, method, examined, found, species_id, hazard, comments, note } = doc;
  const [soil, counted_pct] = [examined?.soil ?? "", examined?.counted_pct ?? null];
  return { reported_on, lab_profile, method, soil, counted_pct, found: found.map((one) => ({ ...one })), species_id, hazard, comments, note };
}

type Problem = "" | "missing" | "zero";

/** A count is needed where one was said to be there, and none is not a number of them. */
export function countProblem({ result, count }: FindingForm): Problem {
  if (result !== "counted") return "";
  if (count === null || Number.isNaN(count) || count < 0) return "missing";
  return count === 0 ? "zero" : "";
}

export const isComplete = (form: ReportForm): boolean => form.reported_on !== "" && form.found.every((one) => countProblem(one) === "");

const tidy = (text: string) => text.trim();

export function reportOf(form: ReportForm, soil_sample: string): Partial<AssayReport> {
  const soil = tidy(form.soil);
  return {
    soil_sample,
    lab_profile: form.lab_profile,
    reported_on: form.reported_on,
    method: tidy(form.method),
    examined: soil ? { soil, counted_pct: form.counted_pct } : null,
    found: form.found.map((one) => ({ ...one, count: one.result === "counted" ? one.count : null, per: tidy(one.per), as_written: tidy(one.as_written) })),
    species_id: tidy(form.species_id),
    hazard: tidy(form.hazard),
    comments: tidy(form.comments),
    note: tidy(form.note),
  };
}
