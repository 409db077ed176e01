// After a form has complained: take the person to the first box that needs them.
import { tick } from "svelte";

/** Bring the first complaint into view together with what it is about, and put the cursor there. */
export async function showFirstWrong(): Promise<void> {
  await tick();
  const found = document.querySelector<HTMLElement>("main [aria-invalid=true], main .error");
  const about = found?.closest<HTMLElement>(".field, fieldset") ?? found;
  const box = found?.matches("[aria-invalid]") ? found : about?.querySelector<HTMLElement>("input, textarea, button");
  box?.focus({ preventScroll: true });
  about?.scrollIntoView({ block: "start" });
}
