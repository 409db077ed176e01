/** Sentences that every form shares. */
export const forms = {
  cannotSave: {
    full: "This phone has no room left. What you typed is still here and kept as a draft. Make room on the phone, then press the button again.",
    broken: "The phone did not take it. What you typed is still here and kept as a draft. Press the button again; if it stays so, close other tabs with this app.",
  },
  draftTitle: "Welcome back.",
  draftBack: "You had started this before. It is all here.",
  startAfresh: "Start afresh",
  needsName: "A name is missing. Anything that you will recognise will do.",
  between: (low: string, high: string) => `Between ${low} and ${high}.`,
  gone: "This one is not on this phone. It may have been removed, or has not come from the server yet.",
  feet: "feet",
  inches: "inches",
  cm: "cm",
} as const;
