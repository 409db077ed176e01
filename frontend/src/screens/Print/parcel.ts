// What one parcel needs on paper.
import type { SheetKind } from "../../sync/sheets.ts";
import type { LabForm } from "../../db/kinds.ts";
import type { LabelSheet } from "../../db/told.ts";
import { printText as words } from "../../text/en/print.ts";

export interface Bag {
  id: string;
  code: string;
}

/** In the order a person packs: what the lab reads, what lies on top, what is glued on. */
export const PARCEL_PAPERS = ["submission", "packing-slip", "labels", "lab-form"] as const satisfies SheetKind[];

/** How many bags a matched form has room for. */
export function rowsOf({ fields, spots }: LabForm): number {
  return Math.max(1, ...[...fields, ...spots].map(({ row }) => row));
}

const MM_PER_INCH = 25.4;
/** Labels on US Letter are sold by inches and eighths. */
const EIGHTHS = ["", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"];

export function labelWords({ key, paper, n_across, n_down, width_mm, height_mm }: LabelSheet): { label: string; note: string } {
  if (key.endsWith("_strip")) return { label: words.strip, note: words.labelSize(width_mm, height_mm) };
  const size = paper === "letter" ? words.labelInches(inches(width_mm), inches(height_mm)) : words.labelSize(width_mm, height_mm);
  return { label: size, note: words.labelsOn(n_across, n_down) };
}

/** To the nearest eighth: "2⅝". */
export function inches(mm: number): string {
  const eighths = Math.round((mm / MM_PER_INCH) * 8);
  return `${Math.floor(eighths / 8) || ""}${EIGHTHS[eighths % 8]}` || "0";
}
