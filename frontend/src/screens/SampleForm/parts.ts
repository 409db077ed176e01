// The halves of a bed by name, as the bed is drawn upright: on the sample's map and on the printed sheet.
import { extent } from "../../components/fit.ts";
import type { Shape, SoilSample } from "../../db/kinds.ts";

export type Part = NonNullable<SoilSample["part"]>;
export type Half = "top" | "bottom" | "left" | "right";

export function halvesOf(shape: Shape): Record<Half, Part> {
  const { width: width_cm, height: length_cm } = extent(shape);
  const [w, l] = [Math.round(width_cm / 2), Math.round(length_cm / 2)];
  return {
    top: { x_cm: 0, y_cm: 0, width_cm, length_cm: l },
    bottom: { x_cm: 0, y_cm: l, width_cm, length_cm: length_cm - l },
    left: { x_cm: 0, y_cm: 0, width_cm: w, length_cm },
    right: { x_cm: w, y_cm: 0, width_cm: width_cm - w, length_cm },
  };
}

/** Which half a stored part is; "whole" for none, "own" for one no button stands for. */
export function nameOf(part: Part | null, shape: Shape | undefined): Half | "whole" | "own" {
  if (!part) return "whole";
  if (!shape) return "own";
  const same = (half: Part) => Object.entries(half).every(([side, cm]) => part[side as keyof Part] === cm);
  const found = Object.entries(halvesOf(shape)).find(([, half]) => same(half));
  return (found?.[0] as Half | undefined) ?? "own";
}
