/** Words around the photos of a sample and of a lab's report. */
export const photosText = {
  title: "Photos",
  take: "Take a photo",
  choose: "Choose a picture",
  ofSample: (n: number) => `Photo ${n} of this sample`,
  ofReport: (n: number) => `Photo ${n} of this report`,
  larger: (label: string) => `${label}, larger`,
  away: "This picture is not on this phone. It is shown when there is a signal.",
  failed: "This picture was not kept. Everything else is. Try another one, or take it again.",
} as const;
