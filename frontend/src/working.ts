/** An answer from the server when it answers, else from the Python core on this phone: the same from the same records. */
import { recordsOf } from "./db/records.ts";
import type { Answer } from "./db/told.ts";
import { fetchAnswer } from "./sync/answers.ts";

export interface Worked {
  answer: Answer;
  here: boolean; // worked out on this phone
}

export async function workOut(garden: string, question: string, typed: Record<string, string>, today: string): Promise<Worked> {
  try {
    return { answer: await fetchAnswer(garden, question, typed, today), here: false };
  } catch (refused) {
    const { status } = refused as { status?: number };
    if (status === undefined) throw refused;
    try {
      return { answer: await workOutHere(garden, question, typed, today), here: true };
    } catch (missing) {
      throw status === 0 ? missing : refused;
    }
  }
}

async function workOutHere(garden: string, question: string, typed: Record<string, string>, today: string): Promise<Answer> {
  const { ask } = await import("./engine/engine.ts");
  return ask<Answer>("ask", { question, typed, today, records: await recordsOf(garden) });
}

/** Which sentence a failure is. */
export async function whyNot(error: unknown): Promise<"failed" | "absent" | "cannot"> {
  const { look, NoEngine } = await import("./engine/engine.ts");
  if (!(error instanceof NoEngine)) return "failed";
  return (await look()).kind === "cannot" ? "cannot" : "absent";
}
