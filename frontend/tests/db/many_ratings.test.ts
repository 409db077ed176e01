import { expect, test } from "vitest";
import { first, openTab, until } from "../cast/phone";

const PER_CHECK = 100;
const CHECKS = 50;

test("with 5,000 ratings on the phone a check's screen reads its own hundred and no others", async () => {
  const tab = await openTab();
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  const checks = Array.from({ length: CHECKS }, () => tab.newId());
  const puts = checks.flatMap((root_check) => Array.from({ length: PER_CHECK }, () => rating(root_check)));
  function rating(root_check: string) {
    return { op: "put" as const, garden, kind: "gall_rating" as const, id: tab.newId(), set: { root_check } };
  }
  await tab.save(puts.slice(0, PER_CHECK * 2));
  const rows = (await tab.db().outbox.where("keys").equals(`${garden}|gall_rating`).toArray()).slice(0, 1);
  const more = puts.slice(PER_CHECK * 2).map(({ id, set }, at) => ({ ...rows[0]!, n: 1000 + at, mid: `m${at}`, id, set, keys: [`${garden}|gall_rating`, `${garden}|gall_rating|${set.root_check}`] }));
  await tab.db().outbox.bulkAdd(more);
  let read = 0;
  tab.db().outbox.hook("reading", (row) => ((read += 1), row));
  expect(await first(tab.read.children(garden, "gall_rating", checks[7]!))).toHaveLength(PER_CHECK);
  expect(read).toBe(PER_CHECK);
  const list = tab.read.children(garden, "gall_rating", checks[7]!);
  const seen = until(list, (all) => all.length === PER_CHECK + 1);
  read = 0;
  await tab.save([rating(checks[7]!)]);
  await seen;
  expect(read).toBeLessThanOrEqual(2 * PER_CHECK + 2);
}, 30_000);
