// The words of a root check: rating plant after plant in the bed.
const plants = (n: number) => (n === 1 ? "1 plant" : `${n} plants`);

/** On a scale whose steps are not equally wide the figure is a mean of ranks, and says so. */
const meanOf = (linear: boolean) => (linear ? "mean" : "mean of ranks");
/** A plant on a small button: "Plant 5" is "5", "Spot 2" is "spot 2". */
const shortly = (plant: string) => plant.replace("Plant ", "").toLowerCase();

export const check = {
  title: (bed: string, crop: string) => `${bed}, ${crop}`,
  titleCrop: (crop: string) => `, ${crop}`,
  gone: "This root check is not on this phone",
  goneText: "It may have been removed, or it has not arrived from the server yet. Nothing you entered is lost.",
  running: (n: number, mean: string | null, linear: boolean, scale: string) =>
    mean === null ? `No plant rated yet · ${scale}` : `${plants(n)}, ${meanOf(linear)} ${mean} · ${scale}`,
  keysLabel: (plant: string) => `Grade for ${plant.toLowerCase()}`,
  keysNone: "Grades. Choose a plant on the map first",
  key: (grade: number) => `Grade ${grade},`,

  plantOf: (plant: string, n: number) => (n > 1 ? `${plant} of ${n}` : plant),
  previous: "Plant before",
  next: "Plant after",
  done: "Done",
  pickNext: "Tap the next plant you dig",
  pickSpot: "Tap the place you dig",
  pickAny: "Tap a plant",
  allRated: "Every chosen plant is rated",
  notRated: "not rated yet",
  isRated: (said: string) => `${said}; a new tap changes it`,

  first: "Wash or shake the roots, look, then tap the grade that comes nearest.",
  startsAt: (plant: number) => `Starts at plant ${plant}, drawn by chance.`,
  said: (plant: string, grade: number) => `${plant}: grade ${grade}`,
  saidState: { missing: (plant: string) => `${plant}: missing`, dead: (plant: string) => `${plant}: dead` },
  saved: "saved on this phone",
  changed: (before: string) => `it was ${before}`,
  undone: (plant: string) => `${plant}: taken back`,
  notSaved: (plant: string) => `${plant} is not saved. The others are on the phone. Tap its grade again.`,
  before: { missing: "missing", dead: "dead", grade: (n: number) => `grade ${n}` },

  twice: (plant: string, said: string) => `Two taps in a second. ${plant} too: ${said}?`,
  twiceYes: (plant: string) => ({ short: "Yes", long: `Yes, ${plant.toLowerCase()} too` }),
  twiceNo: { short: "No", long: "No, one tap" },

  tools: {
    missing: "Missing", dead: "Dead", photo: "Photo",
    /** Says which plant it adds to: "Photo of 5". */
    photoOf: (plant: string) => (plant === "" ? "Photo" : `Photo of ${shortly(plant)}`),
    moreOn: (plant: string) => (plant === "" ? "More" : `More on ${shortly(plant)}`),
    undo: "Undo", decide: "Help me decide",
  },
  toolsLabel: "Also for this plant",

  decide: {
    title: "Help me decide",
    step: (n: number) => `Question ${n} of at most 3`,
    proposal: (low: number, high: number) => (low === high ? `That is grade ${low}.` : `That is grade ${low} to ${high}. Tap the one that comes nearest.`),
    use: (grade: number) => `Rate grade ${grade}`,
    again: "Ask again from the start",
    noPlant: "Choose a plant on the map first; then the grade can be tapped here.",
  },

  photo: {
    title: (plant: string) => `Photo of ${plant.toLowerCase()}`,
    take: "Take a photo",
    choose: "Choose a picture",
    keeping: "Keeping your place …",
    working: "Making the picture smaller …",
    hint: "The picture is made smaller, and the place it was taken is removed from it.",
    resume: (plant: string) => `You were about to take a photo of ${plant.toLowerCase()}. Your ratings are all here.`,
    resumeYes: "Go on with the photo",
    resumeNo: "Leave it",
    saved: "Photo saved on this phone.",
    refused: "This file could not be read as a picture, so it was not kept. Try another photo, or choose JPEG in the camera's settings.",
    failed: "The photo was not saved. Your ratings are kept. Free some space on the phone and try again.",
    alt: (plant: string, n: number) => `Photo ${n} of ${plant.toLowerCase()}`,
    remove: "Remove",
    removeLong: (plant: string, n: number) => `Remove photo ${n} of ${plant.toLowerCase()}`,
    removed: "Photo removed.",
    notChanged: "Nothing was changed: the phone could not write it. Try it again.",
  },

  more: {
    trace: "Only a trace on this plant",
    traceHint: "One gall or very few on the whole root system.",
    rot: "Rotten roots",
    rotHint: "Share of the root system that rots, galled or not.",
    rotUnit: "%",
    doubt: "Is it root-knot at all?",
    doubtSo: (doubt: string) => `Is it root-knot at all? ${doubt}`,
    doubtHint: "If it might be something else, say what; the grade stays as you gave it.",
    noDoubt: "No doubt",
    unsure: "Not sure",
    produce: "Damage on what you harvest",
    produceHint: "Roots or tubers that are eaten; counted apart from the grade.",
    examined: "Looked at",
    damaged: "Damaged",
    tooMany: "More damaged than looked at. Change one of the two.",
    signs: "What it looks like",
    note: "Note",
    close: "Keep and go on",
    notKept: "Not saved yet. What you typed is still here. Try it again.",
  },

  finish: {
    title: "This root check",
    notSaved: "Not saved. What you rated is on the phone. Try it again.",
    rated: (n: number) => `${plants(n)} rated`,
    missing: (n: number) => `${n} missing`,
    dead: (n: number) => `${n} dead`,
    mean: (mean: string, linear: boolean, low: number, high: number) =>
      `${meanOf(linear)} ${mean}, ${low === high ? `all grade ${low}` : `from grade ${low} to ${high}`}`,
    none: "No plant is rated yet.",
    dots: "Plants by grade; one dot is one plant",
    stood: "How many plants stood in this planting?",
    stoodHint: "So that others know what the rated plants stand for.",
    rater: "Who rated?",
    raterHint: "Remembered on this phone.",
    save: "Save and go to the bed",
    leave: "Go to the bed",
    on: "Go on rating",
    range: "Between 1 and 2000 plants.",
  },
};
