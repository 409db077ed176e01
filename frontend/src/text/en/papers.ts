/** Words about papers: PDFs kept with a report, a sample or a lab. */
export const papersText = {
  title: "Papers",
  attach: "Attach a PDF",
  away: "still to come from the server",
  unsent: "not sent yet",
  remove: (name: string) => `Remove ${name}`,
  removed: "The paper is removed.",
  undo: "Undo",
  refused: {
    not_pdf: "This file is not a PDF, so it was not kept. Nothing else is touched. Save it as a PDF first, or add a photo of the paper.",
    too_large: "This PDF is larger than 10 MB, so it was not kept. Nothing else is touched. Save it smaller, or add photos of the pages that matter.",
    unread: "The phone could not read this file, so it was not kept. Nothing else is touched. Choose it again.",
    full: "This phone has no room for it, so it was not kept. Everything else stays. Make room on the phone, then choose it again.",
    broken: "The phone did not take it. Nothing else is touched. Choose it again; if it stays so, close other tabs with this app.",
  } as Record<string, string>,
  drawing: "The pages are being drawn…",
  page: (n: number, m: number, name: string) => `Page ${n} of ${m} of ${name}`,
  save: "Save the PDF",
  back: "Back",
  notHere: "This paper is not on this phone yet, and there is no signal to fetch it. It comes by itself with the next signal.",
  notDrawn: {
    locked: "This PDF asks for a password, so its pages cannot be shown here. Save it and open it with another program.",
    damaged: "This PDF cannot be read: it may be cut short. It is kept as it is. Save it and try another program, or attach it once more.",
    absent: "What draws pages is not on this phone yet. The PDF is here: save it, or look again with signal.",
  },
} as const;
