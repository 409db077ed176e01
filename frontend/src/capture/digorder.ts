/** Which plants are dug, and which comes next. Drawn from the check's own id, so every phone proposes the same ones. */
import type { RootCheck } from "../db/kinds";

type Chosen = RootCheck["chosen"];

/** FNV-1a, 32 bits: a number from a text, the same everywhere. */
function seedOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return hash >>> 0;
}

/** A xorshift generator of numbers in [0, 1): small, and good enough to shuffle a row of plants. */
function chance(seed: number): () => number {
  let state = seed || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 2 ** 32;
  };
}

function shuffled(numbers: number[], next: () => number): number[] {
  for (let i = numbers.length - 1; i > 0; i--) {
    const j = Math.floor(next() * (i + 1));
    [numbers[i], numbers[j]] = [numbers[j]!, numbers[i]!];
  }
  return numbers;
}

/** The plant numbers to dig, in order; empty for "worst looking", which only eyes can choose. */
export function digOrder(chosen: Chosen, nPlants: number, checkId: string): number[] {
  const all = Array.from({ length: nPlants }, (_, i) => i + 1);
  const next = chance(seedOf(checkId));
  if (chosen.how === "all") return all;
  if (chosen.how === "random") return shuffled(all, next);
  if (chosen.how === "worst_looking") return [];
  const k = chosen.every_k ?? 2;
  const start = Math.floor(next() * Math.min(k, nPlants));
  return all.filter((_, i) => i >= start && (i - start) % k === 0);
}

/** The next plant of `order` that is not done, looking on from `after`; null when none is left. */
export function nextPlant(order: number[], done: ReadonlySet<number>, after: number | null = null): number | null {
  const from = after === null ? 0 : order.indexOf(after) + 1;
  const ahead = [...order.slice(from), ...order.slice(0, from)];
  return ahead.find((plant) => !done.has(plant)) ?? null;
}
