/** The layers offered for a tap: the planned one first, then that one in steps, then what is stored. */
import type { SoilSample } from "../../db/kinds.ts";

type Depth = NonNullable<SoilSample["depth"]>;
export interface Layer extends Depth {
  key: string;
  planned: boolean;
}

const USUAL: Depth[] = [
  { from_cm: 0, to_cm: 20 },
  { from_cm: 0, to_cm: 30 },
  { from_cm: 30, to_cm: 60 },
];
const DEEPEST_CM = 200;

export function depthsToPick(planned: Depth | null, stored: Depth | null): Layer[] {
  const layers = new Map<string, Layer>();
  const add = ({ from_cm, to_cm }: Depth, isPlanned: boolean) => {
    const key = `${from_cm}-${to_cm}`;
    if (!layers.has(key)) layers.set(key, { key, from_cm, to_cm, planned: isPlanned });
  };
  if (planned) add(planned, true);
  for (const one of USUAL) add(one, false);
  if (stored) add(stored, false);
  return [...layers.values()];
}

/** A layer from two boxes, an empty upper one being the surface; null when they make none. */
export function depthFrom(from: number | null, to: number | null): Depth | null {
  const from_cm = from ?? 0;
  const fits = to !== null && from_cm >= 0 && to > from_cm && to <= DEEPEST_CM;
  return fits ? { from_cm, to_cm: to } : null;
}
