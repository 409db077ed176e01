/** The few small things kept outside the database because they are needed before it is open. */

export function recall<T>(key: string): T | null {
  try {
    const text = localStorage.getItem(`knotbed-${key}`);
    return text === null ? null : (JSON.parse(text) as T);
  } catch {
    return null; // storage refused or spoiled: start as if nothing were remembered
  }
}

export function remember(key: string, value: unknown): void {
  try {
    if (value === null) localStorage.removeItem(`knotbed-${key}`);
    else localStorage.setItem(`knotbed-${key}`, JSON.stringify(value));
  } catch {
    // A full or refused localStorage costs a convenience, never a record.
  }
}
