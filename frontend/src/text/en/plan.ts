/** Words around the plan of the next soil sample. What is advised is said by the Python core. */
import { dayWords } from "../when.ts";

const days = (from: string | null, to: string | null) => {
  if (from && to) return `${dayWords(from)} to ${dayWords(to)}`;
  if (to) return `Until ${dayWords(to)}`;
  return from ? `From ${dayWords(from)} on` : "";
};

export const planText = {
  title: (bed: string) => `Sample ${bed}`,
  none: "No plan has been worked out for this bed yet. A sample can be begun all the same; the plan comes when the server answers or this phone has worked it out.",
  why: {
    diagnose: "To find out what ails the plants",
    predict: "To see what the next crop would face",
    check_worked: "To see whether what you did helped",
  },
  atAGlance: "In short",
  window: "When",
  anyTime: "While roots are alive in the bed",
  days,
  cores: "Cores",
  nCores: (n: number) => (n === 1 ? "1 core" : `${n} cores, mixed in one bucket`),
  depth: "How deep",
  ask: "Ask the lab to extract",
  askWords: (cm3: number) => `${cm3} cm³ of soil`,
  askPoor: (cm3: number) => `${cm3} cm³ where its method finds fewer`,
  walk: "Where to push the probe",
  walkHint: "In walking order. Each core can be ticked off on the way.",
  mapWords: (bed: string, n: number) => `Map of ${bed} with ${n} places for cores, in walking order`,
  reasons: "What this rests on",
  bestDays: "Best days to lift and send",
  noLab: "Write down your lab first: which days it takes parcels decides the day.",
  addLab: "New lab",
  ship: (ship: string, arrives: string | null) => (arrives ? `Lift and send ${ship}, there ${arrives}` : `Lift and send ${ship}`),
  verdicts: { good: "good", hold: "better wait", never: "never" },
  allDays: (n: number) => `All ${n} days, and why`,
  take: "Take with you",
  never: "Never",
  pair: "Two bags tell more",
  pairText: "Plants look poor in one spot and well in another? Fill a bag from each, and the lab can compare them.",
  beginPair: "Begin two bags: poor spot and good spot",
  begin: "Begin the sample",
  beginOne: "Begin one bag of the whole bed",
  otherwise: "Begin for another reason",
  goOn: (code: string) => `Go on with bag ${code}`,
  notBegun: "The phone did not take it. Nothing was begun. Press the button again.",
} as const;
