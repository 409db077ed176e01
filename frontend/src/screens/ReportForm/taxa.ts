/** The nematodes a report can name, by what they are to a plant. */
import table from "$tables/other_nematodes.json";

interface Taxon {
  key: string;
  name: string;
  latin: string;
  sort: string;
}

const taxa = table as Taxon[];
const SORTS = ["root_knot", "plant_parasitic", "free_living", "not_listed"] as const;

export type Sort = (typeof SORTS)[number];

export const groups: { sort: Sort; taxa: Taxon[] }[] = SORTS.map((sort) => ({ sort, taxa: taxa.filter((one) => one.sort === sort) }));

export const taxonName = (key: string): string => taxa.find((one) => one.key === key)?.name ?? key;
