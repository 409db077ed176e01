// What the server answered, turned into what the screen says.
import type { Arrival, SavedFileBrought } from "../../sync/carrying.ts";
import { leavingText as words } from "../../text/en/leaving.ts";

export interface Wrong {
  text: string;
  signIn: boolean;
}

/** Of what was thrown. The server's own sentence says most about a file; what concerns the line is said here. */
export function wrongOf(thrown: unknown): Wrong {
  const { status = -1, code = "", detail = "" } = thrown as { status?: number; code?: string; detail?: string };
  const says = (text: string, signIn = false) => ({ text, signIn });
  if (status === 0) return says(words.wrong.noServer);
  if (status === 401 || code === "csrf") return says(words.wrong.signIn, true);
  if (status === 404) return says(words.wrong.notYours);
  if (status === 413) return says(words.wrong.tooLarge);
  return says(status < 500 && detail ? detail : words.wrong.failed);
}

/** What a garden's file would bring, a sentence a line. */
export function planLines({ name, state, n_records, n_photos, n_changes, n_only_here }: Arrival): string[] {
  const only = n_only_here > 0 ? [words.onlyHere(n_only_here)] : [];
  if (state === "new") return [words.holds(name, n_records, n_photos), words.isNew];
  if (state === "same") return [words.isSame(name), ...only];
  return [words.isBehind(name, n_changes, n_photos), words.behindHint, ...only];
}

/** What became of a helper's file. */
export function savedLines({ author, results, photos, n_other_gardens }: SavedFileBrought): string[] {
  const n = (...statuses: string[]) => results.filter((one) => statuses.includes(one.status)).length;
  const said: [number, (n: number) => string][] = [
    [n("duplicate"), words.already],
    [photos["stored"] ?? 0, words.photosDone],
    [photos["refused"] ?? 0, words.photosRefused],
    [n_other_gardens, words.otherGardens],
  ];
  return [words.savedDone(author, n("applied", "conflict")), ...said.filter(([count]) => count > 0).map(([count, say]) => say(count))];
}

/** Why single entries were not taken, each reason once. */
export function reasons(refused: { message?: string }[]): string[] {
  return [...new Set(refused.map(({ message }) => message ?? words.wrong.failed))];
}
