/** The records a garden is made of, by their wire names. The same names are used in SQL, JSON and IndexedDB. */
import type { AssayReport, LabProfile, Paper, SoilSample } from "./labkinds";
import type { Day, Moment, Point } from "./values";

export type * from "./labkinds";
export type * from "./values";

export type GallScale = "pct10" | "bp10" | "zeck10";
export type Shape =
  | { type: "rectangle"; width_cm: number; length_cm: number }
  | { type: "outline"; points_cm: Point[] };
export type LookAlike =
  | "legume_nodules"
  | "clubroot"
  | "crown_gall"
  | "false_root_knot"
  | "cyst_nematode"
  | "storage_swelling"
  | "herbicide_injury"
  | "unsure";

export interface Garden {
  name: string;
  place: string;
  time_zone: string;
  units: "metric" | "us";
  grower_name: string;
  grower_address: string;
  grower_phone: string;
  grower_email: string;
  note: string;
}
export interface Bed {
  name: string;
  shape: Shape;
  place: { x_cm: number; y_cm: number };
  depth_cm: number | null;
  soil: string;
  archived: boolean;
  note: string;
}
export interface Rows {
  n_rows: number;
  row_spacing_cm: number;
  plant_spacing_cm: number;
}
export interface Planting {
  bed: string;
  crop: string;
  crop_key: string;
  cultivar: string;
  resistance_code: string;
  grown: { from_on: Day; to_on: Day | null };
  rows: Rows | null;
  plants: Point[];
  pots: Pots | null;
  note: string;
}
/** A pot test: the plants of such a planting are its pots, plant 1 is pot 1. */
export interface Pots {
  n_pots: number;
  blank_pot: number | null; // the pot with potting mix, without the bed's soil
  soil_cm3_per_pot: number;
  soil_sample: string | null;
}
export interface RootCheck {
  planting: string;
  checked_on: Day;
  gall_scale: GallScale;
  rater: string;
  chosen: { how: "all" | "every_kth" | "worst_looking" | "random"; every_k: number | null };
  n_plants_stood: number | null;
  note: string;
}
export interface Reading {
  state: "rated" | "missing" | "dead";
  grade: number | null;
  gall_scale: GallScale;
  trace_only: boolean;
}
export interface GallRating {
  root_check: string;
  place: { x_cm: number; y_cm: number; plant: number | null };
  reading: Reading;
  root_rot_pct: number | null;
  look_alike: LookAlike | null;
  produce_damage: { n_examined: number; n_damaged: number; signs: string } | null;
  n_galls: number | null;
  rated_at: Moment;
  note: string;
}
export interface PhotoOf {
  kind: "gall_rating" | "root_check" | "soil_sample" | "bed" | "assay_report";
  id: string;
}
export interface Photo {
  of: PhotoOf;
  sha256: string;
  n_bytes: number;
  mime: string;
  width_px: number;
  height_px: number;
  taken_at: Moment;
  blob: "pending" | "stored" | "refused"; // owned by the server
}
export interface Conflict {
  of: { kind: Kind; id: string };
  field: string;
  kept: unknown;
  other: unknown;
  other_by: string;
  other_at: Moment;
  state: "open" | "kept" | "taken";
  closed_by: string;
}

/** A change that came after its author's link had ended. Made by the server; somebody who may decides. */
export interface Held {
  op: "put" | "patch" | "delete";
  kind: Kind;
  of: { kind: Kind; id: string };
  set: Record<string, unknown> | null;
  base: number;
  mid: string;
  by: string;
  by_device: string;
  at: Moment;
  why: "link_ended";
  state: "waiting" | "accepted" | "declined";
  closed_by: string;
}

export interface Docs {
  garden: Garden;
  bed: Bed;
  planting: Planting;
  root_check: RootCheck;
  gall_rating: GallRating;
  photo: Photo;
  lab_profile: LabProfile;
  soil_sample: SoilSample;
  assay_report: AssayReport;
  paper: Paper;
  conflict: Conflict;
  held: Held;
}
export type Kind = keyof Docs;

/** A record as a screen sees it: the server's copy with this phone's own changes on top. */
export interface Shown<K extends Kind> {
  id: string;
  kind: K;
  garden: string;
  doc: Docs[K];
  seq: number; // 0 = the server has never shown it to us
  unsent: boolean;
  parked: boolean;
  by: string;
}

/** What a missing optional field means. Required fields have no default: they are always in the put. */
const DEFAULTS: { [K in Kind]: Partial<Docs[K]> } = {
  garden: {
    place: "",
    time_zone: "UTC",
    units: "metric",
    grower_name: "",
    grower_address: "",
    grower_phone: "",
    grower_email: "",
    note: "",
  },
  bed: { place: { x_cm: 0, y_cm: 0 }, depth_cm: null, soil: "", archived: false, note: "" },
  planting: { crop_key: "", cultivar: "", resistance_code: "", rows: null, plants: [], pots: null, note: "" },
  root_check: { gall_scale: "pct10", rater: "", n_plants_stood: null, note: "" },
  gall_rating: { root_rot_pct: null, look_alike: null, produce_damage: null, n_galls: null, note: "" },
  photo: { mime: "image/jpeg", blob: "pending" },
  lab_profile: {
    address: "",
    phone: "",
    email: "",
    account_number: "",
    reporting_unit: "",
    working_days: [0, 1, 2, 3, 4],
    country: "",
    closed_on: [],
    usual_days: null,
    courier: null,
    parcel_wishes: "",
    form: null,
    note: "",
  },
  soil_sample: {
    planting: null,
    part: null,
    cores_planned: [],
    lifted_at: null,
    n_cores: null,
    core_places: [],
    depth: null,
    moisture: null,
    soil_temperature_celsius: null,
    has_roots: null,
    good_or_poor: null,
    symptom: "",
    symptom_pattern: null,
    irrigated: null,
    treatments: "",
    next_crop: "",
    next_crop_on: null,
    tests_wanted: [],
    extract_cm3_asked: null,
    lab_profile: null,
    packed_at: null,
    handed_over: null,
    parcel: null,
    warmth: null,
    extracted_on: null,
    note: "",
  },
  assay_report: { lab_profile: null, method: "", examined: null, found: [], species_id: "", hazard: "", comments: "", note: "" },
  paper: { blob: "pending" },
  conflict: { state: "open", closed_by: "" },
  held: { set: null, state: "waiting", closed_by: "" },
};

/** Kinds that only the server makes; a phone closes them. */
export const SERVER_MADE: Kind[] = ["conflict", "held"];

export function withDefaults<K extends Kind>(kind: K, doc: object): Docs[K] {
  return { ...structuredClone(DEFAULTS[kind] ?? {}), ...doc } as Docs[K];
}

type Fields = Record<string, unknown>;

/** Which record a record hangs on ("" = on the garden itself). */
export function parentOf(kind: Kind, doc: object): string {
  const fields = doc as Fields;
  switch (kind) {
    case "planting":
    case "soil_sample":
      return (fields["bed"] as string) ?? "";
    case "root_check":
      return (fields["planting"] as string) ?? "";
    case "gall_rating":
      return (fields["root_check"] as string) ?? "";
    case "assay_report":
      return (fields["soil_sample"] as string) ?? "";
    case "photo":
    case "paper":
    case "conflict":
    case "held":
      return (fields["of"] as { id: string } | undefined)?.id ?? "";
    default:
      return "";
  }
}

/** The fields a phone may send: the server owns the `blob` of a photo or a paper. */
export function ownFields(kind: Kind, doc: object): Fields {
  const { blob: _blob, ...own } = doc as Fields;
  return kind === "photo" || kind === "paper" ? own : { ...(doc as Fields) };
}
