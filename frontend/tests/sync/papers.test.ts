import { beforeEach, expect, test, vi } from "vitest";
import { hashOf } from "../../src/capture/hash";
import { GardenServer, problem } from "../cast/garden_server";
import { first, holdSession, openTab, type Tab } from "../cast/phone";

let server: GardenServer;
let tab: Tab;
let garden: string;
let papers: typeof import("../../src/db/papers");

const OF = { kind: "lab_profile", id: "0199f000-0000-7000-8000-00000000aaaa" } as const;
const pdf = (more = "", name = "our form.pdf") => new File([`%PDF-1.7\n${more}`], name, { type: "application/pdf" });

beforeEach(async () => {
  server = new GardenServer();
  vi.stubGlobal("fetch", server.fetch);
  tab = await openTab();
  papers = await import("../../src/db/papers");
  papers.papersComeFrom((await import("../../src/sync/papers")).fetchPaper);
  await holdSession(server, tab);
  garden = await tab.create("", "garden", { name: "Long Acre" });
});

const shown = async (id: string) => (await first(tab.read.one(garden, "paper", id)))!;
const text = (bytes: ArrayBuffer | null) => bytes && new TextDecoder().decode(bytes);

test("record and bytes are kept in one transaction, and the record names the bytes", async () => {
  const id = await papers.addPaper(garden, OF, pdf());
  const { doc } = await shown(id);
  expect(doc).toMatchObject({ of: OF, name: "our form.pdf", n_bytes: 9, blob: "pending" });
  expect(hashOf((await tab.db().bytes.get([garden, doc.sha256]))!.bytes)).toBe(doc.sha256);
  expect(text(await papers.readPaper(await shown(id)))).toBe("%PDF-1.7\n");
});

test("its bytes go to the papers, after the record, and stay here for reading without a signal", async () => {
  const id = await papers.addPaper(garden, OF, pdf());
  await tab.sync.syncRound();
  const put = `PUT /gardens/${garden}/papers/${(await shown(id)).doc.sha256}`;
  expect(server.requests.findIndex((r) => r.includes("/push"))).toBeLessThan(server.requests.indexOf(put));
  expect((await shown(id)).doc.blob).toBe("stored");
  await tab.db().blobs.toCollection().modify({ added_at: Date.now() - 31 * 24 * 3_600_000 });
  await tab.change(garden, "garden", garden, { note: "a month later" });
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(1);
});

test("a full phone lets go of what the server has, and it can be had again", async () => {
  const id = await papers.addPaper(garden, OF, pdf());
  await tab.sync.syncRound();
  tab.house.noMorePhotos.set(true);
  await tab.change(garden, "garden", garden, { note: "no room left" });
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(0);
  expect(text(await papers.readPaper(await shown(id)))).toBe("%PDF-1.7\n");
});

test("another phone fetches a form by itself and reads it with no signal", async () => {
  const id = await papers.addPaper(garden, OF, pdf("here"));
  await tab.sync.syncRound();
  await tab.db().delete();
  tab.db().close();
  const other = await holdSession(server, await openTab(tab.account));
  papers = await import("../../src/db/papers");
  await other.sync.syncRound();
  server.fault = () => problem(500, "");
  const paper = (await first(other.read.one(garden, "paper", id)))!;
  expect(text(await papers.readPaper(paper))).toBe("%PDF-1.7\nhere");
});

test("bytes that came spoiled are not kept", async () => {
  const id = await papers.addPaper(garden, OF, pdf());
  await tab.sync.syncRound();
  await tab.db().bytes.clear();
  server.fault = (method, path) => (method === "GET" && path.includes("/papers/") ? new Response("%PDF-half") : null);
  expect(await papers.readPaper(await shown(id))).toBeNull();
  expect(await tab.db().bytes.count()).toBe(0);
});

test.each([
  [new File(["GIF89a"], "a.pdf"), "not_pdf"],
  [new File([new Uint8Array(10_000_001)], "b.pdf"), "too_large"],
])("what is no PDF, or larger than the server takes, is refused and nothing is kept (%#)", async (file, reason) => {
  await expect(papers.addPaper(garden, OF, file)).rejects.toMatchObject({ reason });
  expect(await tab.db().blobs.count()).toBe(0);
  expect(await tab.db().outbox.count()).toBe(1); // the garden
});

test("a full phone takes no paper and says so", async () => {
  tab.house.noMorePhotos.set(true);
  await expect(papers.addPaper(garden, OF, pdf())).rejects.toMatchObject({ reason: "full" });
});

test("the server's no is kept with the paper, for a person to decide", async () => {
  await papers.addPaper(garden, OF, pdf());
  server.fault = (method, path) => (method === "PUT" && path.includes("/papers/") ? problem(415, "not_pdf") : null);
  await tab.sync.syncRound();
  const { photos } = await first(tab.outbox.waiting);
  expect(photos).toMatchObject([{ mime: "application/pdf", parked: true, code: "not_pdf" }]);
});

test("a paper that could not be sent is in the saved file, named a PDF and whole", async () => {
  await papers.addPaper(garden, OF, pdf("here"));
  const { changes, photos } = JSON.parse(await (await tab.outbox.saveAllToFile()).text());
  expect(photos).toMatchObject([{ garden, mime: "application/pdf", sha256: changes.at(-1).set.sha256 }]);
  expect(atob(photos[0].base64)).toBe("%PDF-1.7\nhere");
});

test("a long name loses its middle and keeps its ending", async () => {
  const id = await papers.addPaper(garden, OF, pdf("", `${"a very long name ".repeat(10)}form.pdf`));
  const { name } = (await shown(id)).doc;
  expect(name.length).toBeLessThanOrEqual(80);
  expect(name).toMatch(/form\.pdf$/);
});

test("a paper that was removed leaves no bytes behind for ever", async () => {
  const id = await papers.addPaper(garden, OF, pdf());
  await tab.sync.syncRound();
  await tab.remove(garden, "paper", id);
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(1);
  await tab.db().blobs.toCollection().modify({ added_at: Date.now() - 31 * 24 * 3_600_000 });
  await tab.change(garden, "garden", garden, { note: "a month later" });
  await tab.sync.syncRound();
  expect(await tab.db().bytes.count()).toBe(0);
});
