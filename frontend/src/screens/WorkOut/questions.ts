/** The questions as the table has them: which boxes each has. What the boxes mean is the Python core's. */
export interface Option {
  value: string;
  label: string;
  note?: string;
}
export interface Box {
  name: string;
  label: string;
  hint?: string;
  kind: "number" | "numbers" | "length" | "warmth" | "area" | "choice" | "text" | "day" | "row" | "rows" | "bed";
  unit?: string;
  low?: number;
  high?: number;
  step?: number;
  first?: string;
  needed?: boolean;
  options?: Option[];
  table?: string;
  part?: string;
  key?: string;
  named?: string;
  only?: Record<string, string[]>;
  /** By name, for a list too long to be read through. */
  sorted?: boolean;
}
export interface Question {
  shelf: string;
  title: string;
  lead: string;
  fields: Box[];
}

/** The list is long, so it is loaded when somebody asks. */
export const questions = async () => (await import("$tables/questions.json")).default as unknown as Record<string, Question>;

const tables = import.meta.glob<unknown>(
  [
    "$tables/cover_crops.json",
    "$tables/crops.json",
    "$tables/differential_hosts.json",
    "$tables/host_status.json",
    "$tables/species.json",
    "$tables/thresholds.json",
    "$tables/treatments.json",
  ],
  { import: "default" },
);

type Row = Record<string, string>;

/** What a box offers: its own options, or rows of a table, each once. */
export async function offered(box: Box): Promise<Option[]> {
  if (box.options || !box.table) return box.options ?? [];
  const load = Object.entries(tables).find(([path]) => path.endsWith(`/${box.table}.json`))?.[1];
  const whole = (await load?.()) as Row[] | Record<string, Row[]>;
  const rows = (box.part ? (whole as Record<string, Row[]>)[box.part] : (whole as Row[])) ?? [];
  const kept = rows.filter((row) => Object.entries(box.only ?? {}).every(([column, wanted]) => wanted.includes(row[column] ?? "")));
  const options = kept.map((row) => ({ value: row[box.key ?? "key"] ?? "", label: row[box.named ?? "name"] ?? "" }));
  const once = options.filter(({ value }, i) => options.findIndex((one) => one.value === value) === i);
  return box.sorted ? once.sort((a, b) => a.label.localeCompare(b.label)) : once;
}
