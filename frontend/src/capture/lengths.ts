// Turns what a person types into whole centimetres and back; nothing is ever stored in feet. Not for areas or volumes.

// Exact by definition: 1 yard = 0.9144 m (international yard and pound agreement of 1959; NIST SP 811, B.8; quoted from memory): 1 in = 2.54 cm.
export const CM_PER_INCH = 2.54;
const INCHES_PER_FOOT = 12;

export type Units = "metric" | "us";

/** A typed number with decimal comma or point; null when nothing stands there, NaN when it is no number. */
export function numberFrom(text: string): number | null {
  const tidy = text.trim().replace(",", ".");
  if (tidy === "") return null;
  return /^\d+(\.\d*)?$|^\.\d+$/.test(tidy) ? Number(tidy) : NaN;
}

/** Whole cm from a box of feet and a box of inches: null while both are empty, NaN when one is no number. */
export function cmFromFeet(feet: string, inches: string): number | null {
  const [ft, inch] = [numberFrom(feet), numberFrom(inches)];
  if (ft === null && inch === null) return null;
  return Math.round(((ft ?? 0) * INCHES_PER_FOOT + (inch ?? 0)) * CM_PER_INCH);
}

/** What stands in the two boxes for a stored length; inches to the nearest half, nearer than anybody measures a bed. */
export function feetFromCm(cm: number | null): { feet: string; inches: string } {
  if (cm === null || Number.isNaN(cm)) return { feet: "", inches: "" };
  const inches = Math.round((cm / CM_PER_INCH) * 2) / 2;
  const feet = Math.floor(inches / INCHES_PER_FOOT);
  return { feet: String(feet), inches: String(inches - feet * INCHES_PER_FOOT) };
}

/** A length in words: "120 cm", or "3 ft 11 in" where the garden measures so. */
export function lengthWords(cm: number, units: Units): string {
  if (units === "metric") return `${cm} cm`;
  const { feet, inches } = feetFromCm(cm);
  if (feet === "0") return `${inches} in`;
  return inches === "0" ? `${feet} ft` : `${feet} ft ${inches} in`;
}
