/** Says a stored record in words: which one it is, what its fields are called, what their values mean. */
import { lengthWords, type Units } from "../../capture/lengths.ts";
import { shownWarmth } from "../../capture/warmth.ts";
import { clock, dayWords } from "../when.ts";
import { dayIn, hourIn, phoneZone } from "../zone.ts";
import { sampleText } from "./samples.ts";

type Doc = Record<string, unknown>;

/** How other records are found by name; undefined when this phone does not hold them. */
export interface Naming {
  find: (kind: string, id: string) => Doc | undefined;
  units: Units;
  /** Of the garden; moments are said by its clock. */
  zone?: string | undefined;
}

const kinds: Record<string, string> = {
  garden: "Garden",
  bed: "Bed",
  planting: "Planting",
  root_check: "Root check",
  gall_rating: "Plant",
  photo: "Photo",
  lab_profile: "Lab",
  soil_sample: "Sample",
  assay_report: "Lab report",
  paper: "Paper",
  conflict: "Your choice",
};

const fields: Record<string, string> = {
  name: "name", place: "place", time_zone: "time zone", units: "measures", grower_name: "your name", grower_address: "your address",
  grower_phone: "your phone", grower_email: "your e-mail", note: "note", shape: "shape", depth_cm: "depth", soil: "soil", archived: "put away",
  bed: "bed", crop: "crop", crop_key: "crop in the list", cultivar: "variety", resistance_code: "resistance code", grown: "days", rows: "rows",
  plants: "plant places", planting: "planting", checked_on: "day", gall_scale: "scale", rater: "who rated", chosen: "how plants were chosen",
  n_plants_stood: "plants that stood there", root_check: "check", reading: "grade", root_rot_pct: "root rot", look_alike: "doubt",
  produce_damage: "damaged produce", rated_at: "time", address: "address", phone: "phone", email: "e-mail", account_number: "account number",
  reporting_unit: "counts per", working_days: "parcel days", parcel_wishes: "how it wants parcels", code: "bag code", purpose: "why", part: "part of the bed",
  lifted_at: "day and hour", n_cores: "cores", core_places: "places of the cores", depth: "depth", moisture: "moisture",
  soil_temperature_celsius: "soil warmth", has_roots: "roots in the bag", good_or_poor: "spot", symptom: "what plants look like",
  symptom_pattern: "where in the bed", irrigated: "watered", treatments: "put on the soil", next_crop: "next crop", next_crop_on: "next crop on",
  tests_wanted: "tests", lab_profile: "lab", parcel: "parcel", cores_planned: "planned cores", extract_cm3_asked: "soil to extract", packed_at: "packed",
  handed_over: "handed over", warmth: "warmth on the way", extracted_on: "extracted", pots: "pot test", n_galls: "galls counted", country: "country", closed_on: "closed days",
  usual_days: "usual days to a report", courier: "carrier", form: "the lab's form", soil_sample: "sample", reported_on: "day of the report", method: "method",
  examined: "soil examined", found: "what was found", species_id: "species named", hazard: "the lab's words on hazard", comments: "comments", deleted: "removed or not", state: "choice",
};

const signs: Record<string, string> = {
  metric: "centimetres", us: "feet and inches", pct10: "tens of percent", bp10: "Bridge and Page", zeck10: "Zeck",
  legume_nodules: "legume nodules", clubroot: "clubroot", crown_gall: "crown gall", false_root_knot: "false root-knot",
  cyst_nematode: "cyst nematode", storage_swelling: "storage swelling", herbicide_injury: "herbicide injury", unsure: "not sure",
  kept: "kept", taken: "taken", open: "open", ...sampleText.purposes, ...sampleText.moistures, ...sampleText.patterns, ...sampleText.spots,
};

const NOTHING = "nothing";

/** A bag code as it is written: four signs, a hyphen, the check sign. */
export function codeWords(code: string): string {
  return code.length === 5 ? `${code.slice(0, 4)}-${code.slice(4)}` : code;
}

/** When this phone did or heard something, by its own clock: "10:31" today, "3 May 2026, 10:31" on any other day. */
export function momentWords(iso: string, now: Date = new Date()): string {
  const at = new Date(iso);
  if (Number.isNaN(at.getTime())) return iso;
  const day = dayIn(phoneZone(), iso);
  return day === dayIn(phoneZone(), now.toISOString()) ? clock(iso) : `${dayWords(day)}, ${clock(iso)}`;
}

/** "3 May 2026, 10:31" by the garden's clock. */
export function hourWords(iso: string, zone: string): string {
  const hour = hourIn(zone, iso);
  return hour ? `${dayWords(hour.slice(0, 10))}, ${hour.slice(11)}` : iso;
}

export function fieldWords(field: string): string {
  return fields[field] ?? field.replaceAll("_", " ");
}

function text(value: unknown): string {
  return typeof value === "string" ? value : "";
}

function bedName(id: unknown, naming: Naming): string {
  return text(naming.find("bed", text(id))?.name) || "a bed";
}

function plantingName(id: unknown, naming: Naming): string {
  const planting = naming.find("planting", text(id));
  return planting ? `${text(planting.crop)}, ${bedName(planting.bed, naming)}` : "a planting";
}

function checkName(id: unknown, naming: Naming): string {
  const check = naming.find("root_check", text(id));
  return check ? plantingName(check.planting, naming) : "a check";
}

/** "Plant 7, grade 4, North bed": the record as a person would name it. */
export function recordWords(kind: string, doc: Doc, naming: Naming): string {
  const first = kinds[kind] ?? kind;
  switch (kind) {
    case "garden":
    case "bed":
    case "lab_profile":
      return `${first} ${text(doc.name)}`.trim();
    case "planting":
      return `${text(doc.crop) || first}, ${bedName(doc.bed, naming)}`;
    case "root_check":
      return `${first}, ${plantingName(doc.planting, naming)}${doc.checked_on ? `, ${dayWords(text(doc.checked_on))}` : ""}`;
    case "gall_rating":
      return ratingWords(doc, naming);
    case "soil_sample":
      return `${first} ${codeWords(text(doc.code))}, ${bedName(doc.bed, naming)}`;
    case "assay_report":
      return `${first} on ${recordWords("soil_sample", naming.find("soil_sample", text(doc.soil_sample)) ?? {}, naming)}`;
    case "paper":
      return `${first} ${text(doc.name)}`.trim();
    case "photo":
      return photoWords(doc, naming);
    default:
      return first;
  }
}

function ratingWords(doc: Doc, naming: Naming): string {
  const place = valueWords("place", doc.place, naming);
  const reading = doc.reading ? `, ${valueWords("reading", doc.reading, naming)}` : "";
  const check = naming.find("root_check", text(doc.root_check));
  const planting = check && naming.find("planting", text(check.planting));
  return `${place[0]?.toUpperCase()}${place.slice(1)}${reading}${planting ? `, ${bedName(planting.bed, naming)}` : ""}`;
}

function photoWords(doc: Doc, naming: Naming): string {
  const of = doc.of as { kind: string; id: string } | undefined;
  const target = of && naming.find(of.kind, of.id);
  return target ? `Photo of ${recordWords(of.kind, target, naming)}` : "Photo";
}

function composite(field: string, value: Doc, naming: Naming): string | null {
  const cm = (key: string) => lengthWords(Number(value[key]), naming.units);
  switch (field) {
    case "reading":
      return value.state === "rated" ? `grade ${value.grade}${value.trace_only ? ", a trace only" : ""}` : `${value.state}`;
    case "shape":
      return value.type === "rectangle" ? `${cm("width_cm")} × ${cm("length_cm")}` : `${(value.points_cm as unknown[]).length} corners`;
    case "place":
      return value.plant ? `plant ${value.plant}` : `${cm("x_cm")} across, ${cm("y_cm")} down`;
    case "part":
      return `${cm("width_cm")} × ${cm("length_cm")}, from ${cm("x_cm")} across, ${cm("y_cm")} down`;
    case "grown":
      return `${dayWords(text(value.from_on))} to ${value.to_on ? dayWords(text(value.to_on)) : "now"}`;
    case "rows":
      return `${value.n_rows} rows ${cm("row_spacing_cm")} apart, a plant every ${cm("plant_spacing_cm")}`;
    case "chosen":
      return value.how === "every_kth" ? `every ${value.every_k}th plant` : text(value.how).replaceAll("_", " ");
    case "depth":
      return `${cm("from_cm")} to ${cm("to_cm")} deep`;
    case "parcel":
      return [value.sent_on && `sent ${dayWords(text(value.sent_on))}`, value.arrived_on && `arrived ${dayWords(text(value.arrived_on))}`].filter(Boolean).join(", ") || NOTHING;
    case "handed_over":
      return `to ${text(value.to) || "somebody"}, ${stringWords("handed_over_at", text(value.at), naming)}`;
    case "warmth":
      return ["coldest_celsius", "warmest_celsius"].filter((key) => value[key] !== null).map((key) => numberWords(key, Number(value[key]), naming)).concat(value.in_sun ? ["in the sun"] : []).join(", ") || NOTHING;
    case "pots":
      return `${value.n_pots} pots`;
    case "examined":
      return `${text(value.soil)}${value.counted_pct ? `, ${value.counted_pct} % of it counted` : ""}`;
    case "courier":
      return text(value.words) || `${value.transit_days} days on the way`;
    case "form":
      return `${(value.fields as unknown[]).length + (value.spots as unknown[]).length} lines matched`;
    case "produce_damage":
      return `${value.n_damaged} of ${value.n_examined} damaged`;
    default:
      return null;
  }
}

function list(field: string, value: unknown[]): string {
  if (value.length === 0) return NOTHING;
  if (field === "tests_wanted") return value.map((key) => sampleText.testNames[key as keyof typeof sampleText.testNames] ?? key).join(", ");
  if (field === "working_days") return value.map((n) => ["Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"][Number(n)]).join(", ");
  if (field === "closed_on") return value.map((day) => dayWords(text(day))).join(", ");
  if (field === "found") return value.length === 1 ? "1 finding" : `${value.length} findings`;
  return value.length === 1 ? "1 place" : `${value.length} places`;
}

/** A value in words: "grade 4", "Just moist, holds together", "120 cm × 400 cm". */
export function valueWords(field: string, value: unknown, naming: Naming): string {
  if (value === null || value === undefined || value === "") return NOTHING;
  if (field === "deleted") return value ? "removed" : "still there";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return numberWords(field, value, naming);
  if (Array.isArray(value)) return list(field, value);
  if (typeof value === "object") return composite(field, value as Doc, naming) ?? JSON.stringify(value);
  return stringWords(field, String(value), naming);
}

function numberWords(field: string, value: number, naming: Naming): string {
  if (field.endsWith("_cm")) return lengthWords(value, naming.units);
  if (field.endsWith("_celsius")) return `${shownWarmth(value, naming.units)} ${naming.units === "us" ? "°F" : "°C"}`;
  return field.endsWith("_pct") ? `${value} %` : String(value);
}

function stringWords(field: string, value: string, naming: Naming): string {
  if (field === "bed") return bedName(value, naming);
  if (field === "planting") return plantingName(value, naming);
  if (field === "root_check") return checkName(value, naming);
  if (field === "lab_profile") return text(naming.find("lab_profile", value)?.name) || "a lab";
  if (field === "code") return codeWords(value);
  if (field.endsWith("_on")) return dayWords(value);
  if (field.endsWith("_at")) return naming.zone ? hourWords(value, naming.zone) : momentWords(value);
  return signs[value] ?? value;
}
