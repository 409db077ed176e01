import { expect, test, vi } from "vitest";

vi.stubGlobal("location", { pathname: "/", search: "", hash: "" });
const { match } = await import("../src/router.ts");

test("an address gives the parts that its pattern names", () => {
  expect(match("/beds/:id/edit", "/beds/7/edit")).toEqual({ id: "7" });
  expect(match("/beds/:bed/plantings/new", "/beds/a%20b/plantings/new")).toEqual({ bed: "a b" });
});

test("an address of another length or with other words does not match", () => {
  expect(match("/beds/:id", "/beds/7/edit")).toBeNull();
  expect(match("/samples", "/beds")).toBeNull();
});

test("a slash at the end changes nothing", () => {
  expect(match("/samples", "/samples/")).toEqual({});
  expect(match("/", "/")).toEqual({});
});
