// The lab's PDF while its screen is open: its bytes, its pages as pictures, its lines.
import { readPaper } from "../../db/papers.ts";
import type { Shown } from "../../db/read.ts";
import type { FormRead } from "../../db/told.ts";
import { openPages, type Pages } from "../../engine/engine.ts";
import { readForm, reasonOf } from "../../printing.ts";
import { ownFormText as words } from "../../text/en/ownform.ts";

export class Opened {
  pages: Pages | null = $state.raw(null);
  read: FormRead | null = $state.raw(null);
  /** Why its lines are not there; "" while all is well. */
  why = $state("");
  busy = $state(false);
  /** Looked at, however it went. */
  done = $state(false);

  #paper = "";

  /** A paper that is already kept. */
  async open(paper: Shown<"paper">): Promise<void> {
    if (this.#paper === paper.id && this.done) return;
    this.#paper = paper.id;
    this.busy = true;
    const bytes = await readPaper(paper).catch(() => null);
    if (bytes) await this.look(paper.garden, bytes);
    else this.why = words.problems["form_not_here"]!;
    this.busy = false;
    this.done = true;
  }

  /** What was just looked at is kept under this id from now on. */
  is(paper: string): void {
    this.#paper = paper;
    this.done = true;
  }

  /** Reads lines and pages. False: it can never be filled; anything else may still come. */
  async look(garden: string, bytes: ArrayBuffer): Promise<boolean> {
    this.why = "";
    const [read, pages] = await Promise.allSettled([readForm(garden, bytes), openPages(bytes)]);
    this.close();
    this.read = read.status === "fulfilled" ? read.value : null;
    this.pages = pages.status === "fulfilled" ? pages.value : null;
    if (read.status === "fulfilled") return true;
    const reason = await reasonOf(read.reason).catch(() => "failed" as const);
    this.why = typeof reason === "object" ? (words.problems[reason.problem] ?? words.failed) : reason === "noEngine" ? words.unreadable : words[reason];
    return typeof reason !== "object";
  }

  close(): void {
    this.pages?.close();
    this.pages = null;
  }
}
