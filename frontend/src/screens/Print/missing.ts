// Which lines of the parcel sheet would print empty, so that a person can fill them before the paper is made.
import { stands } from "../../capture/growing.ts";
import type { Bed, Garden, LabProfile, Shown, SoilSample } from "../../db/kinds.ts";
import type { PrintLine } from "../../text/en/print.ts";

function empty(value: unknown): boolean {
  return value === null || value === undefined || value === "" || (Array.isArray(value) && value.length === 0);
}

const OF_SAMPLE = [
  "lifted_at", "n_cores", "core_places", "depth", "moisture", "soil_temperature_celsius", "has_roots", "symptom",
  "symptom_pattern", "irrigated", "treatments", "next_crop", "tests_wanted",
] as const satisfies PrintLine[];

/** Lines about the grower and the lab: one parcel has one of each. */
export function missingOnParcel(garden: Garden, lab: LabProfile | undefined): PrintLine[] {
  const lines: PrintLine[] = [];
  if (empty(garden.grower_name)) lines.push("grower_name");
  if (empty(garden.grower_address)) lines.push("grower_address");
  if (empty(garden.grower_phone) && empty(garden.grower_email)) lines.push("grower_reach");
  if (!lab) return [...lines, "lab"];
  if (empty(lab.address)) lines.push("lab_address");
  if (empty(lab.account_number)) lines.push("account_number");
  return lines;
}

/** Lines about one bag; `plantings` are the garden's, `day` is the day the soil was lifted by the garden's clock. */
export function missingOnSample(sample: SoilSample, bed: Bed | undefined, plantings: Shown<"planting">[], day: string): PrintLine[] {
  const lines: PrintLine[] = OF_SAMPLE.filter((field) => empty(sample[field]));
  const crops = plantings.filter(({ id, doc }) => doc.bed === sample.bed && (id === sample.planting || stands(doc, day)));
  if (crops.length === 0) lines.push("planting");
  return bed && empty(bed.soil) ? [...lines, "soil"] : lines;
}
