/** Words around what soil samples and pot tests prove. What they prove is said by the Python core. */
export const soilText = {
  title: "Soil, lab and pots",
  reports: "What the labs wrote",
  reportOn: (bag: string, day: string) => `Bag ${bag}, report of ${day}`,
  lab: (lab: string, method: string) => [lab || "no lab named", method || "method not said"].join(", "),
  lifted: (day: string) => `lifted ${day}`,
  grade: (grade: string) => `handling ${grade}`,
  wrote: "The lab wrote",
  is: "That is",
  notAPest: "not a pest",
  shown: "Root-knot, per 100 cm³ of soil",
  shownHint: "One line for each lab and method; they are never joined, because labs and methods find different shares of what is there. Bar: the range it may be in.",
  open: "Open sign and “<”: none recovered; there may be as many as that.",
  spread: (low: string, high: string, crop: string) =>
    low === high
      ? `Dashed line: ${low}, the one published level for ${crop || "vegetables"}.`
      : `Shaded: ${low} to ${high}, where published levels for ${crop || "vegetables"} lie.`,
  spreadRests: (n: number) => (n === 1 ? "1 published level." : `${n} published levels; they differ, and so may your bed.`),
  value: (value: string, low: string | null, high: string | null) => (low !== null && high !== null ? `${value} (${low} to ${high})` : value),
  bound: (bound: string) => `< ${bound}`,
  noNumber: "no number",
  whole: "The report",
} as const;

export const potsText = {
  setUp: "How it is set up, and its sheet",
  title: "Pot tests",
  one: (crop: string, n: number) => `${crop}, ${n} pots`,
  sown: (day: string) => `sown ${day}`,
  rate: "Wash and rate the pots",
  goOn: "Open the ratings",
  failed: "The check could not be begun: nothing was written. Try again.",
  pot: (n: number, blank: boolean) => (blank ? `Blank pot ${n}` : `Pot ${n}`),
  running: (n: number, of: number) => `${n} of ${of} pots rated`,
  pick: "Tap a pot",
  allRated: "Every pot is rated",
  row: (crop: string) => `Pots with ${crop}, in a row`,
  nGalls: "Galls counted on this pot",
  nGallsHint: "On all its seedlings together. None is 0.",
  nGallsWrong: "A whole number from 0 to 5000. The stored one stays until then.",
} as const;
