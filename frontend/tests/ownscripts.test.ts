import { beforeEach, expect, test, vi } from "vitest";
import { ownScript, startOnlyOwnScripts } from "../src/ownscripts.ts";

beforeEach(() => {
  vi.stubGlobal("location", new URL("https://garden.example/beds/1"));
});

test.each(["/sw.js", "/assets/worker-BRBtTjDs.js"])("a worker starts from %s", (address) => {
  expect(ownScript(address)).toBe(new URL(address, location.href).href);
});

test.each([
  "https://elsewhere.example/assets/worker.js",
  "//elsewhere.example/sw.js",
  "/api/v1/gardens/1/blobs/2",
  "/assets/../api/v1/me",
  "/sw.js/more",
  "data:text/javascript,1",
  "blob:https://elsewhere.example/1",
])("nothing starts from %s", (address) => {
  expect(() => ownScript(address)).toThrow("not a script of this app");
});

test("the browser is told of script addresses only, never of markup or code", () => {
  const told: unknown[] = [];
  startOnlyOwnScripts({ trustedTypes: { createPolicy: (...words) => told.push(...words) } });
  expect(told).toEqual(["default", { createScriptURL: ownScript }]);
  expect(() => startOnlyOwnScripts({})).not.toThrow();
});
