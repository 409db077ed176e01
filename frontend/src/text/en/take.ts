/** Words of taking a sample, step by step, in the bed. */
import { codeWords } from "./records.ts";

const cores = (n: number) => (n === 1 ? "1 core" : `${n} cores`);

export const takeText = {
  title: (code: string) => `Bag ${codeWords(code)}`,
  inBed: (bed: string, spot: string) => (spot ? `${bed}, ${spot.toLowerCase()}` : bed),
  stepOf: (n: number, of: number) => `Step ${n} of ${of}`,
  steps: {
    walk: "Walk the cores",
    deep: "How deep?",
    feel: "The soil in your hand",
    warm: "Warmth and time",
    photo: "A photo",
    bag: "Write the bag",
    parcel: "The parcel",
  },
  next: "Next",
  before: "Previous",
  later: "Every answer is kept. Leave at any time and take it up again.",
  done: "To the sample's page",
  notKept: "The phone did not take the last answer. What was kept before is here. Tap it again.",

  core: (n: number) => `Core ${n}`,
  goTo: (n: number, of: number) => `Go to core ${n} of ${of}`,
  inBucket: (n: number) => `Core ${n} is in the bucket`,
  oneMore: "One more core is in the bucket",
  skip: "Not this one",
  back: "Take back the last core",
  soFar: (n: number, of: number) => (of > 0 ? `${n} of ${cores(of)} in the bucket` : `${cores(n)} in the bucket`),
  kept: "kept on this phone",
  walked: "Every core is in the bucket. Mix well, then fill the bag.",
  walkedSome: "The other places were passed over. Mix well, then fill the bag; the places are ticked in the list below if you go back to them.",
  atSpot: {
    poor_spot: "Stand where the plants do worst. Take every core of this bag within a few steps of there, beside the roots.",
    good_spot: "Stand where the same plants do well. Take every core of this bag within a few steps of there, beside the roots.",
  },
  count: "Count here. Tap the map to note the places.",
  free: "Push the probe in as evenly over the ground as you can, and count here. Tap the map to note the places.",
  mapWords: (bed: string, done: number, of: number) => `Map of ${bed}, ${done} of ${of} cores ticked off`,
  tickOnMap: "A tap on the map ticks the nearest place.",
  list: "The cores as a list",
  ticked: (n: number) => `Core ${n}, in the bucket`,
  open: (n: number) => `Core ${n}, to do`,

  depthAs: (from: string, to: string) => `${from} to ${to}`,
  depthPlanned: "as planned",
  depthOther: "Another depth",
  depthHint: "The layer that is in the bag.",

  feels: {
    dust_dry: "Runs through the fingers; no ball can be pressed.",
    just_moist: "A pressed ball holds, and breaks when poked.",
    wet: "A pressed ball stays, the palm is smeared.",
    soaked: "Water comes out when it is pressed.",
  },

  warmHint: "Thermometer as deep as the cores, read after a minute. No thermometer: leave it empty.",
  when: "Lifted",

  photoHint: "The spot or the plants; the lab never sees it, you will.",

  readAloud: "To read aloud",
  spelled: (code: string) => [...code].map((sign, i) => (i === code.length - 1 ? `check sign\u00a0${sign}` : sign)).join(" · "),

  together: "In the same parcel",
  togetherHint: "All bags not sent yet that go to this lab.",
  alone: "No other bag waits for this lab.",
  noLabYet: "Choose the lab; bags for the same lab make one parcel.",
  anotherBed: "Another bag for this parcel",
  ofBed: (bed: string) => `From ${bed}`,
  pack: (n: number) => (n === 1 ? "It is packed now" : `All ${n} bags are packed now`),
  packOne: "Only this bag is packed now",
  packHint: "Bags closed and in the box. From now on the sample's page follows them.",
  packed: (when: string) => `packed ${when}`,
  notPacked: "not packed yet",
  papers: "Print the papers",
} as const;
