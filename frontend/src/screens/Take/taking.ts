/** What every step of taking a sample is handed. */
import type { Units } from "../../capture/lengths.ts";
import type { Shown, SoilSample } from "../../db/kinds.ts";

export interface Taking {
  sample: Shown<"soil_sample">;
  bed: Shown<"bed">;
  units: Units;
  /** The garden's clock. */
  zone: string;
  /** How many cores the plan of the bed asks for; null while it is not known. */
  aim: number | null;
  /** False: the phone did not take it, and the screen says so. */
  save: (set: Partial<SoilSample>) => Promise<boolean>;
}
