import { afterEach, expect, test } from "vitest";
import { leftBehind } from "../../src/db/leftbehind";
import { leaveHouse, openHouse } from "../../src/db/house";
import { type Named, named } from "../../src/db/naming";
import { create, remove } from "../../src/db/save";

const shape = { type: "rectangle" as const, width_cm: 100, length_cm: 100 };
let garden = 0;

afterEach(() => leaveHouse());

function once(ids: string[]): Promise<Map<string, Named>> {
  return new Promise((resolve) => {
    const stop = named(ids).subscribe((found) => {
      if (!found) return;
      queueMicrotask(() => stop());
      resolve(found);
    });
  });
}

async function plot(account: string) {
  await openHouse({ id: account, username: account });
  const g = `g${(garden += 1)}`;
  const bed = await create(g, "bed", { name: "North", shape });
  const planting = await create(g, "planting", { bed, crop: "Okra", grown: { from_on: "2031-05-03", to_on: null } });
  const check = await create(g, "root_check", { planting, checked_on: "2031-06-03", gall_scale: "pct10", chosen: { how: "all", every_k: null } });
  return { g, bed, planting, check };
}

test("from one check all it hangs on is found, up to its bed", async () => {
  const { bed, planting, check } = await plot("naming-1");
  const found = await once([check]);
  expect([...found.keys()].sort()).toEqual([bed, planting, check].sort());
  expect(found.get(bed)).toMatchObject({ kind: "bed", doc: { name: "North" } });
});

test("a removed record still has a name, and an unknown one does no harm", async () => {
  const { g, bed } = await plot("naming-2");
  await remove(g, "bed", bed);
  const found = await once([bed, "0199-not-here"]);
  expect([...found.keys()]).toEqual([bed]);
});

test("what a signed-out grower has not sent is counted and can be saved to a file", async () => {
  await plot("left-1");
  leaveHouse();
  const left = (await leftBehind()).find(({ account }) => account.id === "left-1");
  expect(left?.n).toBe(3);
  const file = JSON.parse(await (await left!.save()).text());
  expect(file.account.username).toBe("left-1");
  expect(file.changes.map((change: { kind: string }) => change.kind)).toEqual(["bed", "planting", "root_check"]);
});
