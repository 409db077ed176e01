// Words of taking a garden away as a file, and of bringing such files.

const parts: [kind: string, one: string, many: string][] = [
  ["bed", "1 bed", "beds"],
  ["planting", "1 planting", "plantings"],
  ["root_check", "1 root check", "root checks"],
  ["gall_rating", "1 plant rated", "plants rated"],
  ["soil_sample", "1 soil sample", "soil samples"],
];

const counted = (n: number, one: string, many: string) => (n === 1 ? one : `${n} ${many}`);
const changes = (n: number) => counted(n, "1 change", "changes");
const photos = (n: number) => counted(n, "1 photo", "photos");
const bytes = (n: number) => counted(n, "1 photo or paper", "photos and papers");
const listed = (words: string[]) => (words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`);

export const leavingText = {
  title: "Take the garden with you",
  back: "This phone",

  take: "Save the garden to a file",
  takeLead: "One file with every record, every change ever made and the photos, as the server has them. Any spreadsheet opens the tables in it.",
  takeWhole: "It also holds what was deleted, older values, and your name and address if you entered them. Keep it where only you can read it.",
  takeIt: (name: string) => (name ? `Save “${name}” to a file` : "Save the garden to a file"),
  taking: "The server is packing the garden…",
  taken: "The file is made. Look in your downloads.",
  notTaken: "The file could not be written on this phone. The garden is as it was. Make some room and press again.",
  unsent: (n: number) =>
    n === 1 ? "1 entry is still on this phone only and would not be in the file. Send it first." : `${n} entries are still on this phone only and would not be in the file. Send them first.`,
  noGarden: "There is no garden on this phone yet.",

  bring: "Bring a garden here",
  bringLead: "Choose a file that was made by “Save the garden to a file”, on this server or another. You are told what it would bring before anything happens.",
  pickGarden: "Choose a garden's file",
  looking: "The server is reading the file…",
  holds: (name: string, counts: Record<string, number>, n: number) => {
    const found = parts.filter(([kind]) => (counts[kind] ?? 0) > 0).map(([kind, one, many]) => counted(counts[kind] ?? 0, one, many));
    return `This file holds the garden “${name}”: ${listed([...(found.length ? found : ["no beds yet"]), ...(n > 0 ? [photos(n)] : [])])}.`;
  },
  isNew: "It is not on this server yet. You will be its owner, and what others write in it stays under their names.",
  isBehind: (name: string, n: number, nPhotos: number) =>
    `“${name}” is on this server already. The file has ${listed([...(n > 0 ? [changes(n)] : []), ...(nPhotos > 0 ? [photos(nPhotos)] : [])])} that ${n + nPhotos === 1 ? "is" : "are"} missing here.`,
  behindHint: "Nothing here is overwritten: where both differ, you are asked which one counts.",
  isSame: (name: string) => `“${name}” is on this server already, with all that the file has. There is nothing to bring.`,
  onlyHere: (n: number) => `${changes(n)} here ${n === 1 ? "is" : "are"} not in the file and ${n === 1 ? "stays" : "stay"} as ${n === 1 ? "it is" : "they are"}.`,
  bringIt: "Bring it in",
  otherFile: "Choose another file",
  bringing: "The garden is being brought in…",
  brought: (name: string) => `“${name}” is on the server.`,
  coming: "It is on its way to this phone…",
  open: "Open this garden",
  conflicts: (n: number) => (n === 1 ? "1 entry differs from what is here. Say which one counts." : `${n} entries differ from what is here. Say which ones count.`),
  toConflicts: "Look at them",
  refused: (n: number) => (n === 1 ? "1 entry was not taken:" : `${n} entries were not taken:`),

  saved: "Bring in a helper's file",
  savedLead: "When a helper's phone can no longer send, the helper saves all to a file there and gives it to you. It goes in under the helper's name, and says that you brought it.",
  pickSaved: "Choose a helper's file",
  savedDone: (name: string, n: number) => (n === 0 ? `Nothing in the file of ${name} was new.` : n === 1 ? `1 entry of ${name} was brought in.` : `${n} entries of ${name} were brought in.`),
  already: (n: number) => (n === 1 ? "1 entry was here already." : `${n} entries were here already.`),
  photosDone: (n: number) => `${bytes(n)} came with ${n === 1 ? "it" : "them"}.`,
  photosRefused: (n: number) => `${bytes(n)} could not be taken: ${n === 1 ? "it is" : "they are"} not whole.`,
  otherGardens: (n: number) => (n === 1 ? "1 entry is of another garden and was left alone." : `${n} entries are of another garden and were left alone.`),

  wrong: {
    noServer: "The server could not be reached. Nothing was changed. Try again with a signal.",
    signIn: "The server wants you to sign in again. Nothing was changed.",
    notYours: "This garden belongs to another account of this server. Nothing was changed. Sign in with that account.",
    tooLarge: "This file is larger than the server takes. Nothing was changed. Ask whoever runs the server to put back a backup instead.",
    failed: "The server could not do it. Nothing on this phone was changed. Try again later.",
  },
  signIn: "Sign in",
};
