import { afterAll, beforeAll, expect, test, vi } from "vitest";
import { BED, first } from "../cast/phone";
import { GrowersPhone } from "../cast/growers_phone";
import { RealServer } from "../cast/real_server";

const server = new RealServer("tests.faults.quick_settings");
const N_QUEUED = 10;
beforeAll(async () => {
  await server.prepare();
  server.makeAccounts(["ana", "ben"]);
}, 120_000);
afterAll(() => server.end());

const journal = (garden: string) =>
  server.ask<[string, number]>("SELECT u.username, count(*) FROM gardens_journalentry j JOIN auth_user u ON u.id = j.actor_id WHERE j.garden_id = ? GROUP BY u.username", garden.replaceAll("-", ""));

test("what waited under a lapsed sign-in goes under its own account, not under the one that signed in between", async () => {
  const phone = await GrowersPhone.signedIn(server, "ana", {});
  const { tab } = phone;
  const garden = await tab.create("", "garden", { name: "Long Acre" });
  await phone.sync();
  server.run("from django.contrib.sessions.models import Session; Session.objects.all().delete()");
  for (let n = 0; n < N_QUEUED; n += 1) await tab.create(garden, "bed", { ...BED, name: `Bed ${n}` });
  await expect(tab.sync.syncRound()).rejects.toMatchObject({ status: 401 });
  expect(await tab.db().outbox.where("st").equals("new").count()).toBe(N_QUEUED);

  await tab.sync.signIn("ben", phone.password);
  await vi.waitUntil(async () => (await first(tab.sync.line)).state === "reached");
  expect((await first(tab.outbox.waiting)).items).toEqual([]);
  expect(journal(garden)).toEqual([["ana", 1]]);

  await tab.sync.signIn("ana", phone.password);
  await vi.waitUntil(async () => (await first(tab.outbox.counts)).waiting === 0);
  expect(journal(garden)).toEqual([["ana", 1 + N_QUEUED]]);
});
