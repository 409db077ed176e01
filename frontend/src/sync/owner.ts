/** Who the server takes this phone for. Asked before anything of an account leaves the phone or is given up as lost. */
import { thisDevice } from "../db/device";
import { stayIn } from "../db/house";
import { noteLinkMade } from "../db/joined";
import { noteClosed, noteStandings, type Standing, standings } from "../db/rights";
import type { House } from "../db/schema";
import { me, Refused } from "./api";

export type Listed = Standing & { head: string | null };

/** The outbox of one account must never leave under another's sign-in, nor another's gardens come in here. */
export async function ownGardens(db: House): Promise<Listed[]> {
  const answer = await me();
  stayIn(db);
  const mine = answer.account.id === db.account.id && answer.device === (await thisDevice(db));
  if (!mine) throw new Refused(401, "other_account");
  await noteLinkMade(db, answer.account.is_helper);
  await noteStandings(db, answer.gardens);
  await closeUnlisted(db, answer.gardens);
  return answer.gardens;
}

/** A garden of somebody else's that is not listed any more takes nothing more. One's own may have been lost by a restored server. */
async function closeUnlisted(db: House, listed: Listed[]): Promise<void> {
  const gone = (await standings(db)).filter(({ id, role }) => role !== "owner" && !listed.some((one) => one.id === id));
  for (const { id } of gone) await noteClosed(db, id);
}
