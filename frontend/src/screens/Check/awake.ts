/** Keeps the screen awake during a root check, where the browser can; given back when the check is left. */
export function stayAwake(): () => void {
  let lock: WakeLockSentinel | undefined;
  let left = false;

  const ask = () => {
    if (left || document.visibilityState !== "visible") return;
    // Refused on low battery or without a tap: the screen then sleeps as usual, nothing else changes.
    navigator.wakeLock?.request("screen").then((got) => (left ? void got.release() : (lock = got)), () => undefined);
  };
  ask();
  document.addEventListener("visibilitychange", ask);
  return () => {
    left = true;
    document.removeEventListener("visibilitychange", ask);
    void lock?.release();
  };
}
