/** Opening a link to somebody's garden. Who is signed in here stays who they are and gains a garden. */
import { get } from "svelte/store";
import { uuidv7 } from "uuidv7";
import { thisDevice } from "../db/device";
import { currentHouse, house, session } from "../db/house";
import { isLinkMade, joinedBefore, noteJoined } from "../db/joined";
import { currentGarden } from "../db/read";
import { me, postJson, Refused, useCsrf } from "./api";
import { endOldSession } from "./leaving";
import { beginWith, deviceName } from "./session";
import type { Joined } from "./wire";

/** Throws Refused: `link_ended`, `link_full`, `sign_in_first`; status 0 means the server could not be reached. */
export async function join(token: string, name: string): Promise<Joined> {
  const device = await deviceFor(token);
  const answer = await postJson<Joined>("/join", { token, device, name, device_name: deviceName() });
  await beginWith(answer, answer.garden);
  await noteJoined(currentHouse(), token);
  currentGarden.set(answer.garden);
  return answer;
}

async function deviceFor(token: string): Promise<string> {
  if (get(session).account) return whoIsHere();
  await endOldSession();
  useCsrf(null);
  return (await joinedBefore(token))?.device ?? uuidv7();
}

/** An account with a password whose sign-in has lapsed signs in first: the link would take this phone for somebody new. */
async function whoIsHere(): Promise<string> {
  const db = get(house) ?? currentHouse();
  try {
    await me();
  } catch (error) {
    if (!(error instanceof Refused) || error.status !== 401) throw error;
    if (!(await isLinkMade(db))) throw new Refused(401, "sign_in_first");
    useCsrf(null);
  }
  return thisDevice(db);
}
