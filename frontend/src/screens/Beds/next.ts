/** What is to be done in a garden, as its briefing says it: what has a day first, the earliest on top. */
import type { Briefing, Line } from "../../db/told.ts";

export interface Next {
  /** Null: it is about the whole garden. */
  bed: string | null;
  name: string;
  line: Line;
}

export function nextOf({ lines, beds }: Briefing): Next[] {
  const whole = lines.map((line): Next => ({ bed: null, name: "", line }));
  const ofBeds = beds.flatMap(({ bed, name, lines }) =>
    lines.filter(({ about }) => about === "next").map((line): Next => ({ bed, name, line })),
  );
  return [...whole, ...ofBeds].sort((a, b) => (a.line.by ?? "9999").localeCompare(b.line.by ?? "9999"));
}
