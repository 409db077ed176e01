/** Answers to questions come from the server when it can be reached. */
import type { Answer } from "../db/told";
import { getJson } from "./api";

/** What was typed, by the name of its box. Throws Refused; status 0 means the server could not be reached. */
export function fetchAnswer(garden: string, question: string, typed: Record<string, string>, today: string): Promise<Answer> {
  const query = new URLSearchParams({ ...typed, today });
  return getJson<Answer>(`/gardens/${garden}/answers/${question}?${query}`);
}
