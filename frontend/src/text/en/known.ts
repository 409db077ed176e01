// The words around what is known of a bed. What is known itself is said by the Python core.
import type { Line, Missing } from "../../db/told.ts";

const counted = (n: number, one: string, many: string) => (n === 1 ? `1 ${one}` : `${n} ${many}`);

const kinds: Record<string, [one: string, many: string]> = {
  garden: ["change of the garden", "changes of the garden"],
  bed: ["bed", "beds"],
  planting: ["planting", "plantings"],
  root_check: ["root check", "root checks"],
  gall_rating: ["plant", "plants"],
  lab_profile: ["lab", "labs"],
  soil_sample: ["soil sample", "soil samples"],
  assay_report: ["lab report", "lab reports"],
};

function list(parts: string[]): string {
  return parts.length < 2 ? parts.join("") : `${parts.slice(0, -1).join(", ")} and ${parts.at(-1)}`;
}

export const known = {
  title: "What we know",
  of: (bed: string) => `What we know of ${bed}`,
  abouts: {
    roots: "The roots",
    pattern: "Where in the bed",
    species: "Which nematode",
    sample: "Soil samples",
    next: "What next",
    watch: "Keep in mind",
  } satisfies Record<Line["about"], string>,

  mean: (mean: string, interval: [string, string] | null) => (interval ? `${mean} (${interval[0]} to ${interval[1]})` : mean),
  meanLabel: "Mean grade",
  ranksLabel: "Mean of ranks",
  onScale: (name: string) => `on the scale “${name}”`,
  range: (lowest: number, highest: number, middle: string) =>
    lowest === highest ? `Every plant rated had grade ${lowest}.` : `From grade ${lowest} to grade ${highest}; the middle one ${middle}.`,
  dots: (n: number) => (n === 1 ? "1 plant rated, by grade" : `${n} plants rated, by grade`),

  showSpots: "Show hot spots on the map",
  hideSpots: "Take hot spots off the map",
  turned: "The bed is drawn lying down: its top is at the left here, its left side at the bottom.",
  spots: { full: "Colour: the likely grade there", pale: "Pale: few plants near", hatch: "Hatched: nobody dug here" },

  consistent: "Consistent with",
  against: "Fits less well",
  send: "Send for identification",

  sure: "How sure",
  because: "Because",
  settle: "What would settle it",
  whyThis: "How sure, and why",
  by: (day: string) => `By ${day}`,
  sources: (n: number) => counted(n, "source", "sources"),
  sourcesTitle: "Sources",
  sourceLost: "The list of sources could not be opened. Load the app again when there is a signal.",
  noYear: "no year given",
  where: "Where",
  read: "What was read of it",
  fromMemory: "From memory: the source itself was not seen.",
  moreReasons: (n: number) => counted(n, "more reason", "more reasons"),
  assumptions: (n: number) => counted(n, "assumption in it", "assumptions in it"),
  judgement: "A judgement of ours, not a measurement.",

  why: "All of it, and why",
  made: (when: string, here: boolean) => (here ? `Worked out on this phone ${when}.` : `Worked out ${when}.`),
  missing: (n: number, of: Missing[]) =>
    `It does not include ${counted(n, "entry", "entries")} yet: ${list(of.map(({ kind, n }) => counted(n, ...(kinds[kind] ?? ["other", "others"]))))}.`,
  here: {
    working: "This phone is working it out anew.",
    absent: "It is worked out anew when the server answers, or when this phone has what it needs to do it alone.",
    cannot: "This browser cannot work it out alone; it is done anew when the server answers.",
  },
  none: "Nothing has been worked out for this garden yet. It is done when the server answers; what you enter is kept on this phone.",
  noneOfBed: "Nothing has been worked out for this bed yet.",

  next: "What next",
  whole: "The whole garden",
  all: (n: number) => `All ${n}`,
};
