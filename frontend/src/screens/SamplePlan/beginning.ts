/** What "Begin" saves: one bag, or a pair of them, with what the plan says. */
import { newBagCode } from "../../capture/code.ts";
import type { SoilSample } from "../../db/kinds.ts";
import { newId, type Step } from "../../db/save.ts";
import type { PlanTold } from "../../db/told.ts";

type Spot = SoilSample["good_or_poor"];

export interface Ground {
  garden: string;
  bed: string;
  /** What stands there. */
  planting: string | null;
  /** The one lab there is; with several a person chooses. */
  lab: string | null;
}

/** The poor spot first. The places of the plan cover the whole bed, so a spot has none. */
export function bagsFor(plan: PlanTold, ground: Ground, how: "whole" | "pair"): Step[] {
  const spots: Spot[] = how === "pair" ? ["poor_spot", "good_spot"] : [null];
  return spots.map((spot) => bag(plan, ground, spot));
}

function bag(plan: PlanTold, { garden, bed, planting, lab }: Ground, good_or_poor: Spot): Step {
  const cores_planned = good_or_poor ? [] : plan.cores_cm.map(([x, y]) => [Math.round(x!), Math.round(y!)]);
  const set = {
    bed,
    planting,
    code: newBagCode(),
    purpose: plan.why,
    cores_planned,
    good_or_poor,
    extract_cm3_asked: plan.ask_cm3,
    lab_profile: lab,
    symptom: good_or_poor === "good_spot" ? "" : (plan.symptom ?? ""),
  };
  return { op: "put", garden, kind: "soil_sample", id: newId(), set };
}
