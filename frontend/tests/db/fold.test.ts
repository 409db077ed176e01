import fc from "fast-check";
import { expect, test } from "vitest";
import { fold } from "../../src/db/fold";
import { withDefaults } from "../../src/db/kinds";
import type { OutRow, ServerRow } from "../../src/db/schema";

const ME = "ana";
const field = fc.constantFrom("name", "soil", "note");
const set = fc.dictionary(field, fc.string({ maxLength: 5 }), { maxKeys: 3, noNullPrototype: true });
const patch = fc.record({ op: fc.constantFrom("patch" as const, "put" as const, "delete" as const), set, st: fc.constantFrom("new" as const, "ack" as const, "parked" as const) });
const patches = fc.array(patch, { maxLength: 8 });

function row(at: number, part: Pick<OutRow, "op" | "set" | "st">): OutRow {
  return { n: at, mid: `m${at}`, account: "a", garden: "g", kind: "bed", id: "b", keys: [], base: 0, at: "", ack: 0, tried: 0, ...part };
}
function server(doc: Record<string, unknown>, deleted = false): ServerRow {
  return { id: "b", garden: "g", kind: "bed", parent: "", seq: 4, deleted, by: "ben", device: "d", rev: {}, doc };
}
const rows = (parts: Pick<OutRow, "op" | "set" | "st">[]) => parts.map((part, at) => row(at, part));

test("with nothing waiting the server's copy is shown, whatever it is", () => {
  fc.assert(fc.property(set, fc.boolean(), (doc, deleted) => {
    expect(fold<"bed">(server(doc, deleted), [], ME)).toMatchObject({ deleted, unsent: false, by: "ben", seq: 4, doc: withDefaults("bed", doc) });
  }));
});

test("the last value typed for a field is the one shown", () => {
  fc.assert(fc.property(set, patches, fc.string(), (doc, before, name) => {
    const shown = fold<"bed">(server(doc), rows([...before, { op: "patch", set: { name }, st: "new" }]), ME)!;
    expect(shown.doc.name).toBe(name);
  }));
});

test("an acknowledgement changes nothing that is shown", () => {
  fc.assert(fc.property(set, patches, (doc, parts) => {
    const sent = parts.map((part) => ({ ...part, st: "ack" as const }));
    const [before, after] = [fold<"bed">(server(doc), rows(parts), ME)!, fold<"bed">(server(doc), rows(sent), ME)!];
    expect([after.doc, after.deleted]).toEqual([before.doc, before.deleted]);
  }));
});

test("when the server has applied the first changes, dropping them shows the same", () => {
  fc.assert(fc.property(set, patches, fc.nat(8), (doc, parts, n) => {
    const all = rows(parts.map((part) => ({ ...part, op: "patch" as const })));
    const applied = Object.assign({}, doc, ...all.slice(0, n).map((one) => one.set));
    expect(fold<"bed">(server(applied), all.slice(n), ME)!.doc).toEqual(fold<"bed">(server(doc), all, ME)!.doc);
  }));
});

test("joining two changes of one record shows the same as keeping them apart", () => {
  fc.assert(fc.property(set, set, set, (doc, one, two) => {
    const apart = rows([{ op: "patch", set: one, st: "new" }, { op: "patch", set: two, st: "new" }]);
    const joined = rows([{ op: "patch", set: { ...one, ...two }, st: "new" }]);
    expect(fold<"bed">(server(doc), joined, ME)!.doc).toEqual(fold<"bed">(server(doc), apart, ME)!.doc);
  }));
});

test("a change to a record that neither the server nor this phone has made shows nothing", () => {
  expect(fold<"bed">(undefined, rows([{ op: "patch", set: { name: "x" }, st: "new" }]), ME)).toBeNull();
});

test("a missing optional field has its default and no default is shared between records", () => {
  const [one, two] = [withDefaults("planting", {}), withDefaults("planting", {})];
  one.plants.push([1, 2]);
  expect(two).toMatchObject({ plants: [], rows: null, resistance_code: "" });
});
