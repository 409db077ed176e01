/** What the Python core says of soil samples, lab reports and pot tests, as it travels. */
import type { Reason, Said } from "./said";

export interface FindingTold {
  taxon: string;
  name: string;
  sort: "root_knot" | "plant_parasitic" | "free_living" | "not_listed";
  about: string;
  stage: string;
  as_written: string;
  original: string; // "40 per 250 cc"
  words: string; // "16 per 100 cm³", "<12 per 100 cm³", "none recovered"
  value: number | null; // this and the next three per 100 cm³ of soil
  low: number | null;
  high: number | null;
  bound: number | null; // none recovered: there may be this many
  sources: string[];
  assumed: string; // "" or what had to be assumed to convert it
}
export interface ReportTold {
  assay_report: string;
  soil_sample: string;
  bag: string;
  lab: string;
  method: string;
  reported_on: string;
  lifted_on: string | null;
  grade: string;
  series: string;
  findings: FindingTold[];
}
/** Counts of one lab by one method. Two series are never joined. */
export interface SeriesTold {
  key: string;
  lab: string;
  method: string;
  points: { assay_report: string; on: string; value: number | null; low: number | null; high: number | null; bound: number | null }[];
}
export interface SoilTold {
  lines: Said[];
  reports: ReportTold[];
  series: SeriesTold[];
  spread: { low: number; high: number; n: number } | null;
  crop: string;
  level: number | null;
}

export type Step = "lifted" | "packed" | "handed_over" | "received" | "extracted" | "reported";
export interface SampleTold {
  soil_sample: string;
  bag: string;
  step: Step | null;
  steps: { step: Step; at: string | null; on: string | null; after: string }[];
  /** Growing worse with time: the last whose moment has come is true now. */
  handling: { from_at: string; grade: "A" | "B" | "C"; line: Said; help: string }[];
  overdue: { from_on: string; line: Said } | null;
}

export interface PlanTold {
  why: "diagnose" | "predict" | "check_worked";
  window: { from_on: string | null; to_on: string | null };
  n_cores: number;
  cores_cm: number[][];
  depth: { from_cm: number; to_cm: number };
  ask_cm3: number;
  ask_if_poor_cm3: number;
  level: number;
  crop: string;
  symptom?: string; // a briefing kept from an older version has none
  lines: Said[];
}
/** What to take along to sample a bed, and what never to do. */
export interface SamplingTold {
  take: Reason[];
  never: Reason[];
}

export interface PotsTold {
  planting: string;
  root_check: string | null;
  ready_from_on: string | null;
  ready_to_on: string | null;
  n_pots: number;
  blank_pot: number | null;
  galls: number | null;
  blank_galls: number | null;
  lines: Said[];
}

export interface ShipDayTold {
  ship_on: string;
  arrives_on: string | null;
  verdict: "good" | "hold" | "never";
  rank: number | null;
  reasons: Reason[];
}
export interface LabTold {
  lab_profile: string;
  name: string;
  days: ShipDayTold[];
  lines: Said[];
}

/** A thing to do by a day, as it also stands in the calendar. */
export interface Due {
  uid: string;
  on: string;
  until_on: string | null;
  bed: string | null;
  about: string;
  code: string;
  words: string;
}

/** The empty places and lines of a lab's own form, read from its PDF. */
export interface FormRead {
  kind: "fields" | "flat";
  pages: { width_pt: number; height_pt: number }[];
  fields: {
    field: string;
    type: "text" | "check" | "choice" | "radio";
    options: string[];
    page: number;
    box: number[]; // left, top, right, bottom, from the top left of the page
    label: string;
    guess: { fill: string; row: number; when: string } | null;
  }[];
}
export interface LabelSheet {
  key: string;
  paper: "a4" | "letter";
  n_across: number;
  n_down: number;
  width_mm: number;
  height_mm: number;
}
