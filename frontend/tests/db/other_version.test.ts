import { get } from "svelte/store";
import { expect, test } from "vitest";
import { first, openTab } from "../cast/phone";

test("when a newer page changes the database this one lets go of it and says so, and a save after that is kept too", async () => {
  const tab = await openTab();
  await tab.create("", "garden", { name: "Long Acre" });
  const newer = await new Promise<IDBDatabase>((open, refuse) => {
    const asked = indexedDB.open(tab.db().name, 999);
    asked.onsuccess = () => open(asked.result);
    asked.onerror = () => refuse(asked.error);
  });
  expect(get(tab.house.houseTrouble)).toBe("other_version");
  newer.close();
  await tab.create("", "garden", { name: "Not too late" });
  const again = await openTab(tab.account);
  expect((await first(again.read.gardens)).map((garden) => garden.doc.name)).toEqual(["Long Acre", "Not too late"]);
});
