/** One form in the making: what is typed is kept as a draft with every keystroke, so a killed page loses nothing. */
import { forget, keep, recall } from "./drafts";
import { SaveFailed } from "./house";

export class FormDraft<T extends object> {
  /** True when an earlier, unfinished draft was put back into the form. */
  returned = $state(false);
  failure = $state<"" | "full" | "broken">("");
  busy = $state(false);
  ready = $state(false);

  readonly #key: string;
  readonly #form: T;
  #first = "{}";

  /** Make it while the component is set up; `form` is the component's own state object. */
  constructor(key: string, form: T) {
    this.#key = key;
    this.#form = form;
    $effect(() => {
      const now = JSON.stringify(form);
      if (this.ready && now !== this.#first) void keep(key, JSON.parse(now)).catch(() => undefined);
    });
  }

  /** Fill the form: first what is stored, then the draft over it. */
  async begin(stored: Partial<T>): Promise<void> {
    Object.assign(this.#form, stored);
    this.#first = JSON.stringify(this.#form);
    const draft = await recall<T>(this.#key).catch(() => undefined);
    if (draft && JSON.stringify(draft) !== this.#first) {
      Object.assign(this.#form, draft);
      this.returned = true;
    }
    this.ready = true;
  }

  async startAfresh(): Promise<void> {
    Object.assign(this.#form, JSON.parse(this.#first));
    this.returned = false;
    await forget(this.#key);
  }

  /** Save; the draft goes only after the save is on the phone. False: not saved, the form and its draft stay. */
  async finish(work: () => Promise<void>): Promise<boolean> {
    if (this.busy) return false;
    this.busy = true;
    this.failure = "";
    try {
      await work();
      this.ready = false;
      await forget(this.#key).catch(() => undefined);
      return true;
    } catch (error) {
      this.failure = error instanceof SaveFailed ? error.reason : "broken";
      return false;
    } finally {
      this.busy = false;
    }
  }
}
