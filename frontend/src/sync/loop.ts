/** When to talk to the server: at start, with a signal, on coming back, after a save, every minute while looked at. */
export function startSync(): () => void {
  return () => {};
}

export function syncNow(): void {}
