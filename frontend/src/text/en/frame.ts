// The words of the frame: chip, navigation, notices that may stand on any screen.

/** Where the chip has to break, it breaks before the number, not within what it counts. */
const together = (n: number) => `\u00a0· ${n}\u00a0to\u00a0send`;

export const frame = {
  name: "Knotbed",
  skip: "Skip to the content",
  close: "Close",
  back: "Back",
  tabs: { beds: "Beds", samples: "Samples", print: "Print", phone: "Phone" },
  tabsLabel: "Main places",
  notice: { info: "Note", good: "Done", warning: "Take care", danger: "Not done" },

  chip: {
    allsent: (at: string) => (at ? `All sent ${at}` : "All sent"),
    waiting: (n: number) => (n > 0 ? `Saved on this phone${together(n)}` : "Saved on this phone"),
    sending: (n: number) => `Sending ${n}`,
    nosignal: (n: number) => (n > 0 ? `No signal: keep going${together(n)}` : "No signal: keep going"),
    signin: (n: number) => (n > 0 ? `Sign in to send ${n}` : "Sign in to send"),
    needsyou: (n: number) => (n === 1 ? "1 needs you" : `${n} need you`),
    notsaved: "Not saved",
    full: "This phone is full",
  },

  notSaved: {
    title: "Not saved",
    text: "The last entry could not be written on this phone. Everything before it is there. Free some space if the phone is full, then enter it again; if this stays, save what is on the phone to a file.",
    file: "Save it all to a file",
    fileFailed: "The file could not be written. What was saved before is still on the phone; do not clear its storage.",
  },
  fullPhone: {
    title: "This phone is full",
    text: "Ratings and notes still fit and are kept; new photos do not. Delete something on the phone to make room for them.",
  },
  trouble: {
    other_version: {
      title: "A newer version is open in another tab.",
      text: "What was entered is kept. Load this page again to go on here.",
    },
    blocked: {
      title: "An older page of this app is still open.",
      text: "Close the other tab, then load this one again. What was entered is kept.",
    },
    again: "Load again",
  },
  update: {
    title: "New version ready.",
    text: "Nothing is lost.",
    use: "Use it",
  },
  insecure: "This address is not secured (https), so the app cannot start without the server. Entries are still kept on this phone.",

  notHere: {
    title: "Nothing at this address",
    text: "The link may be old, or this record is not on this phone yet. What you entered is untouched.",
    action: "Go to the beds",
  },
  locked: {
    title: "Not yours to change",
    text: "In this garden you may look at this, but not change it. What you entered is untouched.",
    ended: "The link to this garden has ended. What you entered before is kept.",
  },
  ended: {
    title: (garden: string) => `The link to ${garden} has ended.`,
    text: "What you entered is kept.",
    see: "What now?",
  },
  unopened: "Not opened",
  unbuilt: "This part could not be opened. Your entries are on the phone. Load the app again when there is a signal.",

  crash: {
    title: "The app stopped",
    text: "Something in the app went wrong, not in what you did. Your entries are kept on this phone. Load it again; to be sure, save them to a file first.",
    file: "Save what is on this phone to a file",
    again: "Load the app again",
    fileFailed: "The file could not be written. Your entries are still in the phone's storage; do not clear it.",
    details: "What went wrong, for whoever helps you",
  },
};
