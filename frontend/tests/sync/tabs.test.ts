import { expect, test, vi } from "vitest";
import { GardenServer } from "../cast/garden_server";
import { holdSession, newAccount, openTab, until } from "../cast/phone";

test("of two tabs one talks to the server, so nothing is sent twice, and both end up knowing all is sent", async () => {
  const server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  const account = newAccount();
  const [one, two] = [await openTab(account), await openTab(account)];
  await holdSession(server, one);
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await one.save(Array.from({ length: 300 }, (_, at) => ({ op: "put" as const, garden, kind: "lab_profile" as const, id: one.newId(), set: { name: `Lab ${at}` } })));
  const stops = [one.sync.startSync(), two.sync.startSync()];
  await until(one.sync.status, (status) => status.kind === "allsent");
  await until(two.sync.status, (status) => status.kind === "allsent");
  for (const stop of stops) stop();
  expect(server.pushed.flat()).toHaveLength(301);
  expect(await one.db().outbox.count()).toBe(0);
});

test("without locks two tabs may send the same items, and the garden still holds each once", async () => {
  vi.stubGlobal("navigator", { userAgent: "Android" });
  const server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  const account = newAccount();
  const [one, two] = [await openTab(account), await openTab(account)];
  await holdSession(server, one);
  const garden = await one.create("", "garden", { name: "Long Acre" });
  await one.save(Array.from({ length: 300 }, (_, at) => ({ op: "put" as const, garden, kind: "lab_profile" as const, id: one.newId(), set: { name: `Lab ${at}` } })));
  await Promise.all([one.sync.syncRound(), two.sync.syncRound()]);
  await one.sync.syncRound();
  expect(server.gardens.get(garden)!.journal).toHaveLength(301);
  expect(await one.db().outbox.count()).toBe(0);
  vi.unstubAllGlobals();
});
