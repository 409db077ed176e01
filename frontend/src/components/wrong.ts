// After a form has complained: take the person to the first box that needs them.
import { tick } from "svelte";

/** Focus the first marked box; without one, bring the first complaint into view. */
export async function showFirstWrong(): Promise<void> {
  await tick();
  const box = document.querySelector<HTMLElement>("main [aria-invalid=true]");
  if (box) box.focus();
  else document.querySelector("main .error")?.scrollIntoView({ block: "center" });
}
