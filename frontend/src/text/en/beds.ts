// The words of the two screens about beds: the garden with all of them, and one bed.
const plants = (n: number) => (n === 1 ? "1 plant" : `${n} plants`);

function ordinal(n: number): string {
  const end = n % 100 > 10 && n % 100 < 14 ? "th" : (["th", "st", "nd", "rd"][n % 10] ?? "th");
  return `${n}${end}`;
}

export const beds = {
  title: "Beds",
  chooser: "Garden",
  noGarden: "No garden yet",
  noGardenText: "A garden holds your beds, what grows in them and what their roots looked like. It takes a name to begin.",
  makeGarden: "Make your garden",
  noBeds: "No bed yet",
  noBedsText: "Draw the first bed by its measures. Then say what grows in it, dig a plant and rate its roots.",
  makeBed: "Draw the first bed",
  addBed: "Add a bed",
  editGarden: "Garden and grower",
  drawn: "The garden, drawn to scale",
  list: "All beds",
  putAway: (n: number) => (n === 1 ? "1 bed put away" : `${n} beds put away`),
  never: "never rated",
  neverLong: "Nobody has looked at roots here yet",
  /** On a scale whose steps are not equally wide the figure is a mean of ranks, and says so. */
  mean: (mean: string, linear: boolean) => (linear ? `mean grade ${mean}` : `mean of ranks ${mean}`),
  /** How many plants a mean rests on; a mean of plants that were picked for their looks says so. */
  rests: (n: number, of: number | null, picked: boolean) =>
    (of === null ? plants(n) : `${n} of ${plants(of)}`) + (picked ? ", the worst-looking" : ""),
  otherScale: (name: string) => `on the scale “${name}”`,
  legend: "The number is the mean grade of the latest root check. Hatched: nobody has dug there.",
};

export const bed = {
  back: "Beds",
  gone: "This bed is not on this phone",
  goneText: "It may have been put away or removed, or it has not arrived from the server yet. Nothing you entered is lost.",
  edit: "Change this bed",
  putAway: "This bed is put away.",
  map: "Map",
  noPlanting: "Nothing grows here yet",
  noPlantingText: "Say what stands in this bed; the map then shows its plants, and you can rate their roots.",
  addPlanting: "Add a planting",
  stands: (growing: boolean, size: string) => `${growing ? "growing now" : "the last planting"} · ${size}`,
  size: (long: string, wide: string) => `${long} × ${wide}`,
  noPlants: "The plants of this planting are not laid out. Tap the map where you dig.",
  shown: (day: string, ago: string) => `${day}, ${ago}`,
  notChecked: "No root check of this planting yet. Open circles are plants nobody has dug.",
  sums: (mean: string, linear: boolean, n: string) => `${linear ? "mean" : "mean of ranks"} ${mean}, ${n}`,
  noneRated: "no plant rated yet",
  openCheck: "Open this check",

  rateAsk: "Rate roots: which plants?",
  goOn: "Go on with today's check",
  goOnNote: (n: number) => (n === 0 ? "no plant rated yet" : `${plants(n)} rated so far`),
  which: "Which planting?",
  how: { all: "Every plant", every_kth: "Every few", worst_looking: "Worst-looking", random: "At random" },
  howNote: {
    all: "one after the other",
    every_kth: "you say how many",
    worst_looking: "gives no fair mean",
    random: "the phone says which",
  },
  everyFew: {
    title: "Every how many plants?",
    k: "One plant out of",
    range: "A whole number from 2 to 50.",
    every: (k: number) => `Every ${ordinal(k)} plant`,
    rests: plants,
    startsAt: (plant: number) => `Starts at plant ${plant}, drawn by chance.`,
    start: "Start",
  },
  otherScales: "Other 0–10 scales",
  scale: "Grade scale",
  scaleNote: "A rating always keeps its scale. Scales are never turned into one another.",
  notSaved: "The root check could not be begun: nothing was written. What you rated before is on the phone. Try again.",

  checks: "Root checks",
  noChecks: "None yet.",
  checkLine: (crop: string, n: string) => `${crop} · ${n}`,
  plantings: "Plantings",
  from: (from: string, to: string | null) => (to === null ? `since ${from}` : `${from} to ${to}`),
  samples: "Soil samples",
  allSamples: "Samples",
  addSample: "Sample this bed",
  addPots: "Set up a pot test",
  aboutPots: "soil of the bed in pots: no lab needed",
  nSamples: (n: number) => (n === 0 ? "none from this bed yet" : n === 1 ? "1 from this bed" : `${n} from this bed`),
};
