import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { PyodideAPI } from "pyodide";
import { beforeAll, expect, test } from "vitest";
import { askHere, demoGarden, ROOT, runServersPython, startCore } from "../cast/core";

interface Box {
  name: string;
  kind: string;
  low?: number;
  high?: number;
  least?: number;
  first?: string;
  options?: { value: string }[];
  table?: string;
  part?: string;
  key?: string;
  only?: Record<string, string[]>;
}

const read = (name: string) => JSON.parse(readFileSync(join(ROOT, "fixtures", `${name}.json`), "utf8"));
const questions = read("questions") as Record<string, { fields: Box[] }>;
const { records } = demoGarden();
const named = (name: string) => records.find(({ kind, doc }) => kind === "bed" && doc["name"] === name)!.id;
const bed = named("Rain barrel bed");

function rows(box: Box): Record<string, string>[] {
  const table = read(box.table!);
  const all = (box.part ? table[box.part] : table) as Record<string, string>[];
  return all.filter((row) => Object.entries(box.only ?? {}).every(([column, wanted]) => wanted.includes(row[column]!)));
}

// Where something that fits each box does not fit together.
const TOGETHER: Record<string, Record<string, string>> = {
  lab_number: { unit: "per 250 cc" },
  harvest_lost: { counted: "both", bulk_density: "1.3" },
  beside_untreated: { untreated: named("Terrace bed") },
  test_plants: { not_galled: "peanut" },
};

/** Something that fits the box. */
function filled(box: Box): string {
  if (box.first) return box.first;
  if (box.kind === "bed") return bed;
  if (box.kind === "day") return "2026-05-04";
  if (box.kind === "text") return "VFN";
  if (box.options) return box.options[0]!.value;
  if (box.table) return rows(box)[0]![box.key ?? "key"]!;
  const number = String(Math.round(box.low! + (box.high! - box.low!) * 0.02));
  return box.kind === "numbers" ? Array(box.least ?? 4).fill(number).join(" ") : number;
}

type Asked = [question: string, typed: Record<string, string>];
const asked: Asked[] = Object.entries(questions).flatMap(([question, { fields }]) => [
  [question, { ...Object.fromEntries(fields.map((box) => [box.name, filled(box)])), ...TOGETHER[question] }] as Asked,
  [question, Object.fromEntries(fields.filter(({ kind }) => kind === "bed").map((box) => [box.name, filled(box)]))] as Asked,
]);

const ASK = `import json, pathlib, sys
from gardens.domain.asked import ask
tables = {p.stem: json.loads(p.read_text()) for p in pathlib.Path("fixtures").glob("*.json")}
records, asked, today = json.load(sys.stdin)
json.dump([json.dumps(ask(q, typed, records, tables, today), ensure_ascii=False) for q, typed in asked], sys.stdout)`;

let core: PyodideAPI;
beforeAll(async () => {
  core = await startCore();
}, 60_000);

test("every question is answered on the phone as on the server, to the last letter", { timeout: 120_000 }, () => {
  const today = "2026-11-20";
  const there = JSON.parse(runServersPython(ASK, JSON.stringify([records, asked, today])).toString()) as string[];
  const here = asked.map(([question, typed]) => askHere(core, "ask", { question, typed, today, records })[1].toString());
  for (const [i, [question]] of asked.entries()) expect(here[i], question).toBe(there[i]);
  const answered = new Set(asked.filter((_, i) => (JSON.parse(here[i]!) as { lines: [] }).lines.length > 0).map(([question]) => question));
  expect([...answered].sort()).toEqual(Object.keys(questions).sort());
});
