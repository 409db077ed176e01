// A long list in two: what is most likely wanted, and the rest behind "Older".

/** The first `n` of a sorted list, six at least so that nothing is folded away for a line or two. */
export function newFirst<T>(options: T[], n: number): { first: T[]; older: T[] } {
  const cut = Math.max(n, 6);
  return { first: options.slice(0, cut), older: options.slice(cut) };
}
