/** The marks of a pot test: what are plants of a bed elsewhere are pots here. */
import type { Mark } from "../../components/marks.ts";
import type { Pots } from "../../db/kinds.ts";
import { potsText as words } from "../../text/en/soil.ts";

export function potMarks(marks: Mark[], pots: Pots): Mark[] {
  return marks.map((mark) => {
    if (mark.plant === null) return mark;
    return { ...mark, label: `${words.pot(mark.plant, mark.plant === pots.blank_pot)}${mark.label.slice(mark.label.indexOf(","))}` };
  });
}
