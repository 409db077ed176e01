// Says what goes on a line: "Bag code, bag 2", "tick if Watered or not: Yes".
import { ownFormText as words } from "../../text/en/ownform.ts";
import { isOfBag, type Line, type Match } from "./matching.ts";

export function matchWords(matches: Match[], many: boolean): string {
  const [first] = matches;
  if (!first) return words.empty;
  if (first.fill === "words") return `“${first.words}”`;
  const fill = words.fills[first.fill];
  const said = first.when ? answered(matches, fill) : fill;
  return isOfBag(first.fill) && (many || first.row > 1) ? words.forBag(said, first.row) : said;
}

function answered(matches: Match[], fill: string): string {
  const answer = ({ fill: of, when }: Match) => words.answers[of]?.[when] ?? when;
  const own = matches.filter(({ words: theirs }) => theirs);
  if (own.length > 0) return words.inTheirWords(fill, own.map(({ words: theirs }) => theirs).join(", "));
  return words.tickIf(fill, answer(matches[0]!));
}

export function lineWords(line: Line, n: number): string {
  return line.spot ? words.spot(n) : line.label;
}
