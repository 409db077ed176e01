/** One form in the making: what is typed is kept as a draft with every keystroke, so a killed page loses nothing. */
import { forget, keep, recall } from "./drafts";
import { SaveFailed } from "./house";
import { touched } from "./touched";

export class FormDraft<T extends object> {
  /** True when an earlier, unfinished draft was put back into the form. */
  returned = $state(false);
  failure = $state<"" | "full" | "broken">("");
  busy = $state(false);
  ready = $state(false);

  readonly #key: string;
  readonly #form: T;
  #first = "{}";
  #doc: object = {};
  #kept = false;

  /** Make it while the component is set up; `form` is the component's own state object. */
  constructor(key: string, form: T) {
    this.#key = key;
    this.#form = form;
    $effect(() => {
      const typed = touched(JSON.parse(this.#first), JSON.parse(JSON.stringify(form)));
      if (this.ready) void this.#keep(typed).catch(() => undefined);
    });
  }

  /** Fill the form: first what is stored, then the draft over it. `doc`: the record that is changed. */
  async begin(stored: Partial<T>, doc: object = {}): Promise<void> {
    Object.assign(this.#form, stored);
    this.#first = JSON.stringify(this.#form);
    this.#doc = JSON.parse(JSON.stringify(doc));
    const draft = await recall<Partial<T>>(this.#key).catch(() => undefined);
    this.#kept = draft !== undefined;
    if (draft && Object.keys(touched(this.#form, draft)).length > 0) {
      Object.assign(this.#form, draft);
      this.returned = true;
    }
    this.ready = true;
  }

  /** Of what the form makes, what differs from the record as it was when the form was opened. */
  changes<S extends object>(set: S): Partial<S> {
    return touched(this.#doc, set);
  }

  /** What was typed, and nothing else: over what is stored by then it still says what the person meant. */
  async #keep(typed: Partial<T>): Promise<void> {
    const any = Object.keys(typed).length > 0;
    if (any) await keep(this.#key, typed);
    else if (this.#kept) await forget(this.#key);
    this.#kept = any;
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
