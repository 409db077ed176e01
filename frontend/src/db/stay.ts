/** Asks the browser not to clear this app's data when the phone runs short; once per visit, after the first rating is saved. */

let asked = false;

export function askToStay(): void {
  if (asked) return;
  asked = true;
  // Some browsers ask the person, some decide for themselves; a no changes nothing but the odds.
  void navigator.storage?.persist?.().catch(() => false);
}
