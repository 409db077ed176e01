/** What the Python core says, as it travels: the briefing and answers. The screens show it and add nothing to it. */
import type { Said } from "./said";
import type { Due, LabTold, PlanTold, PotsTold, SampleTold, SamplingTold, SoilTold } from "./toldlab";

export type * from "./said";
export type * from "./toldlab";

export interface Line extends Said {
  about: "roots" | "pattern" | "species" | "sample" | "next" | "watch";
}

export interface Roots {
  root_check: string;
  checked_on: string;
  gall_scale: string;
  scale_name: string;
  chosen: string;
  n_rated: number;
  n_stood: number | null;
  mean: number | null;
  median: number | null;
  lowest: number | null;
  highest: number | null;
  counts: number[];
  interval: number[] | null;
}
export interface Surface {
  root_check: string;
  cell_cm: number;
  origin_cm: number[];
  n_columns: number;
  n_rows: number;
  values: (number | null)[];
  ground: ("full" | "pale" | "hatch" | "outside")[];
  gate: "open" | "closed";
}
export interface Fits {
  species: string;
  because: string[];
}
export interface Species {
  consistent_with: Fits[];
  against: Fits[];
  send_for_identification: boolean;
  why: string[];
}

export interface BedTold {
  bed: string;
  name: string;
  roots: Roots | null;
  surface: Surface | null;
  species: Species | null;
  // Missing in an answer that an older version kept on the phone.
  soil?: SoilTold | null;
  plan?: PlanTold | null;
  samples?: SampleTold[];
  pots?: PotsTold[];
  lines: Line[];
}
export interface Briefing {
  today: string;
  beds: BedTold[];
  // These too.
  sampling?: SamplingTold;
  labs?: LabTold[];
  due?: Due[];
  holidays?: Record<string, string[]>;
  lines: Line[];
}
/** Entries of one kind that a briefing does not include yet. */
export interface Missing {
  kind: string;
  n: number;
}

/** The answer to one question. With anything in `wrong`, the rest is empty. */
export interface Answer {
  question: string;
  wrong: { field: string; words: string }[];
  lines: Said[];
  rows: { name: string; cells: { label: string; words: string }[]; sources: string[]; caution: boolean }[];
  places: { bed: string; points_cm: number[][] } | null;
}
