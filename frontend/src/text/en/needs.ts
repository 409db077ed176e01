/** Words of "needs you": two values for one thing, and a person to choose. */
export const needsText = {
  title: "Needs you",
  emptyTitle: "Nothing needs you",
  empty: "When two phones write different things in one place, both are kept and shown here, and you choose.",
  lead: "Two phones wrote different things. Both are kept. Choose one.",
  here: "Now in the garden",
  there: (who: string, at: string) => `From ${who}, ${at}`,
  somebody: "another phone",
  keep: (value: string) => `Keep ${value}`,
  take: (value: string) => `Take ${value}`,
  kept: (value: string) => `Kept: ${value}.`,
  taken: (value: string) => `Taken: ${value}.`,
  keepAfterAll: (value: string) => `Keep ${value} after all`,
  takeAfterAll: (value: string) => `Take ${value} after all`,
  parked: (n: number) => (n === 1 ? "1 entry was put aside by the server." : `${n} entries were put aside by the server.`),
  toParked: "See them",
} as const;
