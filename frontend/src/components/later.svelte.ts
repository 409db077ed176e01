// Ten seconds to think again: what a person lets go is done only after them, or when they leave the screen.
import { onDestroy } from "svelte";

const UNDO_MS = 10_000;

/** Make it while the component is set up. */
export class Later<T> {
  /** What is about to be done, or null. */
  pending: T | null = $state.raw(null);
  #work: (() => unknown) | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor() {
    onDestroy(() => this.now());
  }

  /** Do `work` in ten seconds; a second one in between does the first at once. */
  put(what: T, work: () => unknown): void {
    this.now();
    this.pending = what;
    this.#work = work;
    this.#timer = setTimeout(() => this.now(), UNDO_MS);
  }

  now(): void {
    clearTimeout(this.#timer);
    const work = this.#work;
    this.undo();
    work?.();
  }

  undo(): void {
    clearTimeout(this.#timer);
    this.pending = null;
    this.#work = null;
  }
}
