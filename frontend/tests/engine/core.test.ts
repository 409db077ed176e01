import { beforeAll, expect, test } from "vitest";
import type { PyodideAPI } from "pyodide";
import { packCore } from "../../build/engine";
import { askHere, askServersPython, demoGarden, jsonIn, lend, ROOT, runServersPython, startCore } from "../cast/core";

let core: PyodideAPI;
beforeAll(async () => {
  core = await startCore();
}, 60_000);

const { records } = demoGarden();
const first = (kind: string) => records.find((record) => record.kind === kind)!.id;
const common = { records, origin: "https://garden.test", now: "2031-06-14T09:30:00.000Z" };
const SHEETS: [string, object][] = [
  ["submission_sheet", { samples: [first("soil_sample")], paper: "a4" }],
  ["bed_map", { root_check: first("root_check"), paper: "letter" }],
  ["labels", { samples: [first("soil_sample")], sheet: "letter_67x25", first: 2 }],
  ["packing_slip", { samples: [first("soil_sample")], paper: "a4" }],
  ["pots_sheet", { planting: records.find(({ doc }) => doc["pots"])!.id, paper: "letter" }],
  ["rating_form", { planting: first("planting"), scale: "zeck10", paper: "a4" }],
];

test.each(SHEETS)("the phone's %s is the server's, byte for byte", (name, args) => {
  const [as, bytes] = askHere(core, name, { ...common, ...args });
  expect(as).toBe("pdf");
  expect(bytes.equals(askServersPython(name, { ...common, ...args }))).toBe(true);
});

test("the phone names the same empty lines of a parcel's sheet as the server", () => {
  const asked = { ...common, samples: records.filter(({ kind }) => kind === "soil_sample").slice(-1).map(({ id }) => id) };
  const [as, bytes] = askHere(core, "submission_blanks", asked);
  expect(as).toBe("json");
  expect(Object.keys(JSON.parse(bytes.toString()))).toEqual(["grower", "lab", "samples"]);
  expect(bytes.toString()).toBe(askServersPython("submission_blanks", asked).toString());
});

const MAKE_FORM = `import base64, sys
from tests.sheets import made_forms
sys.stdout.write(base64.b64encode(made_forms.fillable()).decode())`;

test("the phone reads and fills a lab's own form as the server does", () => {
  const pdf = runServersPython(MAKE_FORM).toString();
  const read = askHere(core, "form_fields", { pdf })[1].toString();
  expect(JSON.parse(read).fields.length).toBe(12);
  expect(read).toBe(askServersPython("form_fields", { pdf }).toString());
  const fields = [{ field: "Grower name", fill: "grower_name", row: 1, when: "", words: "" }];
  const matched = records.map((one) => (one.kind === "lab_profile" ? { ...one, doc: { ...one.doc, form: { paper: first("bed"), fields, spots: [] } } } : one));
  const args = { ...common, records: matched, samples: [first("soil_sample")], pdf };
  const [as, filled] = askHere(core, "lab_form", args);
  expect(as).toBe("pdf");
  expect(filled.equals(askServersPython("lab_form", args))).toBe(true);
});

test("the phone's briefing of the demo garden is the server's, to the last letter", () => {
  const asked = { records, today: "2031-08-20", holidays: { CV: ["2031-08-25"] } };
  const [as, bytes] = askHere(core, "briefing", asked);
  expect(as).toBe("json");
  expect(JSON.parse(bytes.toString()).beds.length).toBeGreaterThan(3);
  expect(bytes.toString()).toBe(askServersPython("briefing", asked).toString());
});

test("a garden in a far time zone prints the hour of its own clock", () => {
  const moved = records.map((record) => (record.kind === "garden" ? { ...record, doc: { ...record.doc, time_zone: "Pacific/Chatham" } } : record));
  const args = { ...common, records: moved, samples: [first("soil_sample")], paper: "a4" };
  const here = askHere(core, "submission_sheet", args)[1];
  expect(here.equals(askServersPython("submission_sheet", args))).toBe(true);
  expect(here.equals(askHere(core, "submission_sheet", { ...args, records })[1])).toBe(false);
});

test("a refusal comes back as a code", () => {
  const asked = { ...common, samples: ["0199-none"], paper: "a4" };
  const [as, bytes] = askHere(core, "submission_sheet", asked);
  expect([as, JSON.parse(bytes.toString())]).toEqual(["problem", { code: "not_found", params: { field: "samples", id: "0199-none" } }]);
  expect(askHere(core, "nothing", {})[0]).toBe("problem");
});

const RUN = `
import json
from tests.domain.checks import all_cases, matches, run_case
runs = {case["id"]: run_case(case) for case in all_cases()}
said = json.dumps({each: got for each, (ok, got) in runs.items()}, default=str)
`;
const COMPARE = `
here, there = json.loads(said), json.loads(there)
wrong = [each for each, (ok, _) in runs.items() if not ok or not matches(here[each], there[each], None)]
`;

test("every published value comes out on the phone, and as on the server: whole numbers and words the same, others to 1e-9", () => {
  for (const path of ["tests/domain/checks.py", ...jsonIn("fixtures/checks")]) lend(core, path);
  core.runPython(RUN);
  core.globals.set("there", runServersPython(`${RUN}print(said)`).toString());
  core.runPython(COMPARE);
  expect(core.globals.get("wrong").toJs()).toEqual([]);
  expect(core.runPython("sorted(runs) == sorted(there) and len(runs) > 100")).toBe(true);
}, 60_000);

test("a value that differs is told", () => {
  core.runPython(`${RUN}there = json.dumps({each: "else" for each in runs})${COMPARE}`);
  expect(core.runPython("len(wrong) == len(runs)")).toBe(true);
}, 60_000);

test("packing twice gives the same bytes", () => {
  const [one, two] = [packCore(ROOT), packCore(ROOT)];
  expect(one.hash).toBe(two.hash);
  expect(one.content.equals(two.content)).toBe(true);
});
