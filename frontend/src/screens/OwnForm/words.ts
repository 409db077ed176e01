// Says a match in words: "Bag code, bag 2", "tick if Watered or not: Yes".
import { ownFormText as words } from "../../text/en/ownform.ts";
import { isOfBag, type Line, type Match } from "./matching.ts";

export function matchWords(match: Match, many: boolean): string {
  if (match.fill === "words" && !match.when) return `“${match.words}”`;
  const fill = words.fills[match.fill];
  const said = match.when ? words.tickIf(fill, words.answers[match.fill]?.[match.when] ?? match.when) : fill;
  return isOfBag(match.fill) && (many || match.row > 1) ? words.forBag(said, match.row) : said;
}

export function lineWords(line: Line, n: number): string {
  return line.spot ? words.spot(n) : line.label;
}
