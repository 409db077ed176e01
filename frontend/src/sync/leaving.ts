/** Ends the server's session of somebody who signed out, at once or, without a signal, at the next contact. */
import { hasSessionToEnd, noteSessionEnded } from "../db/keyring";
import { Refused, unsafe, useCsrf } from "./api";

const MINUTE_MS = 60_000;

let ending: Promise<void> | null = null;

/** While nobody is signed in here. The answer stops it. */
export function keepEnding(): () => void {
  const now = () => void endOldSession();
  now();
  const minute = setInterval(now, MINUTE_MS);
  addEventListener("online", now);
  return () => {
    clearInterval(minute);
    removeEventListener("online", now);
  };
}

/** Never fails: what could not be ended now is tried again. Of two callers at once both wait for the one attempt. */
export function endOldSession(): Promise<void> {
  ending ??= end().finally(() => (ending = null));
  return ending;
}

async function end(): Promise<void> {
  try {
    if (!(await hasSessionToEnd())) return;
    await logOut();
    useCsrf(null);
    await noteSessionEnded();
  } catch {
    // No answer, or not the server's: the note stays.
  }
}

async function logOut(): Promise<void> {
  try {
    await unsafe("POST", "/logout");
  } catch (error) {
    if (!(error instanceof Refused) || error.status !== 401) throw error; // 401: it has ended by itself
  }
}
