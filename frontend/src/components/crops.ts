// The list of crops that the crop box offers. Any other word is as welcome: it is stored as typed, without a key.
import table from "$tables/crops.json";

export interface Crop {
  key: string;
  name: string;
  latin: string;
}

const crops: Crop[] = table;
const MOST_OFFERED = 6;

const plain = (text: string) => text.normalize("NFD").replace(/\p{M}/gu, "").toLowerCase().trim();

/** Crops whose name or Latin name holds what was typed; those that begin with it first. */
export function matching(typed: string): Crop[] {
  const want = plain(typed);
  if (!want) return [];
  const rank = (crop: Crop) => {
    const [name, latin] = [plain(crop.name), plain(crop.latin)];
    if (name.startsWith(want)) return 0;
    if (name.includes(` ${want}`) || name.includes(`(${want}`)) return 1;
    return name.includes(want) || latin.includes(want) ? 2 : 3;
  };
  return crops
    .map((crop) => ({ crop, rank: rank(crop) }))
    .filter((found) => found.rank < 3)
    .sort((a, b) => a.rank - b.rank)
    .slice(0, MOST_OFFERED)
    .map((found) => found.crop);
}

/** The key of a crop typed out in full, or "". */
export function keyOf(typed: string): string {
  return crops.find((crop) => plain(crop.name) === plain(typed))?.key ?? "";
}
