/** The records of the way to a laboratory and back, by their wire names. */
import type { Day, Moment, Point } from "./values";

export type Fill =
  | "words"
  | "grower_name"
  | "grower_address"
  | "grower_phone"
  | "grower_email"
  | "garden_name"
  | "garden_place"
  | "lab_name"
  | "account_number"
  | "n_samples"
  | "sent_on"
  | "sample_code"
  | "bed_name"
  | "area"
  | "soil"
  | "purpose"
  | "lifted_on"
  | "depth"
  | "n_cores"
  | "moisture"
  | "soil_temperature"
  | "has_roots"
  | "good_or_poor"
  | "symptom"
  | "symptom_pattern"
  | "irrigated"
  | "treatments"
  | "crop_now"
  | "cultivar_now"
  | "planted_on"
  | "crops_before"
  | "next_crop"
  | "next_crop_on"
  | "tests_wanted"
  | "note";

interface Filled {
  fill: Fill;
  row: number; // which bag of the parcel, 1 for the first
  when: string; // a box is ticked only for this value; "" for what is not a box
  words: string; // what is written with the fill "words"
}
export interface FormField extends Filled {
  field: string; // its name inside the PDF
}
export interface FormSpot extends Filled {
  page: number; // 1 for the first
  x_pt: number; // from the left edge
  y_pt: number; // from the top edge, to the line the text stands on
  width_pt: number;
  size_pt: number;
}
export interface LabForm {
  paper: string;
  fields: FormField[];
  spots: FormSpot[];
}
export interface Courier {
  transit_days: number;
  to_door: boolean;
  moves_on: number[]; // 0 = Monday
  words: string;
}
export interface LabProfile {
  name: string;
  address: string;
  phone: string;
  email: string;
  account_number: string;
  reporting_unit: string;
  working_days: number[]; // 0 = Monday
  country: string; // two letters of ISO 3166, or nothing
  closed_on: Day[];
  usual_days: number | null; // from the parcel's arrival to the report
  courier: Courier | null;
  parcel_wishes: string;
  form: LabForm | null;
  note: string;
}
export interface SoilSample {
  bed: string;
  planting: string | null;
  code: string;
  purpose: "diagnose" | "predict" | "check_worked";
  part: { x_cm: number; y_cm: number; width_cm: number; length_cm: number } | null;
  cores_planned: Point[]; // where to go; core_places is where cores were lifted
  lifted_at: Moment | null;
  n_cores: number | null;
  core_places: Point[];
  depth: { from_cm: number; to_cm: number } | null;
  moisture: "dust_dry" | "just_moist" | "wet" | "soaked" | null;
  soil_temperature_celsius: number | null;
  has_roots: boolean | null;
  good_or_poor: "good_spot" | "poor_spot" | null;
  symptom: string;
  symptom_pattern: "patches" | "rows" | "low_spots" | "everywhere" | "none_seen" | null;
  irrigated: boolean | null;
  treatments: string;
  next_crop: string;
  next_crop_on: Day | null;
  tests_wanted: ("nematode_count" | "species_id" | "root_extraction" | "egg_count")[];
  extract_cm3_asked: number | null;
  lab_profile: string | null;
  packed_at: Moment | null;
  handed_over: { at: Moment; to: string } | null;
  parcel: { sent_on: Day | null; arrived_on: Day | null } | null;
  warmth: { warmest_celsius: number | null; coldest_celsius: number | null; in_sun: boolean } | null;
  extracted_on: Day | null;
  note: string;
}
export interface Finding {
  taxon: string; // a key of fixtures/other_nematodes.json
  stage: "j2" | "eggs" | "eggs_and_j2" | "adults" | "all_stages" | "not_said";
  result: "counted" | "none_recovered" | "seen";
  count: number | null; // with "counted", and only with it
  per: string; // as the lab wrote it: "100 cm³", "pint", "g of root"
  as_written: string;
}
export interface AssayReport {
  soil_sample: string;
  lab_profile: string | null;
  reported_on: Day;
  method: string;
  examined: { soil: string; counted_pct: number | null } | null; // soil as written: "250 cc"
  found: Finding[];
  species_id: string;
  hazard: string;
  comments: string;
  note: string;
}
/** A PDF; its bytes travel apart, as those of a photo do. */
export interface Paper {
  of: { kind: "assay_report" | "soil_sample" | "lab_profile"; id: string };
  name: string;
  sha256: string;
  n_bytes: number;
  blob: "pending" | "stored" | "refused"; // owned by the server
}
