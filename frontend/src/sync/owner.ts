/** Who the server takes this phone for. Asked before anything of an account leaves the phone or is given up as lost. */
import { thisDevice } from "../db/device";
import { stayIn } from "../db/house";
import type { House } from "../db/schema";
import { me, Refused } from "./api";

/** The outbox of one account must never leave under another's sign-in, nor another's gardens come in here. */
export async function ownGardens(db: House): Promise<{ id: string; head: string | null }[]> {
  const answer = await me();
  stayIn(db);
  const mine = answer.account.id === db.account.id && answer.device === (await thisDevice(db));
  if (!mine) throw new Refused(401, "other_account");
  return answer.gardens;
}
