import { createHash } from "node:crypto";
import fc from "fast-check";
import { expect, test } from "vitest";
import { fit, shrink } from "../../src/capture/camera";
import { hashOf } from "../../src/capture/hash";
import { heicSize, isHeic } from "../../src/capture/heic";

test("the hash of abc is the one of FIPS 180-4's published example", () => {
  // NIST, "Examples with Intermediate Values" for FIPS 180-4, SHA256.pdf, one-block message "abc".
  const abc = new TextEncoder().encode("abc").buffer;
  expect(hashOf(abc)).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
});

test("the hash agrees with node's own for any bytes", () => {
  fc.assert(fc.property(fc.uint8Array({ maxLength: 300 }), (bytes) => {
    expect(hashOf(bytes.slice().buffer)).toBe(createHash("sha256").update(bytes).digest("hex"));
  }));
});

test("a picture is fitted to the longest edge, keeps its proportions and is never made larger", () => {
  expect(fit(4032, 3024, 1600)).toEqual({ width: 1600, height: 1200 });
  expect(fit(3024, 4032, 1600)).toEqual({ width: 1200, height: 1600 });
  expect(fit(640, 480, 1600)).toEqual({ width: 640, height: 480 });
  expect(fit(9000, 2, 160)).toEqual({ width: 160, height: 1 });
});

test("a file that is no picture is refused with its reason", async () => {
  await expect(shrink(new Blob(["not a picture"]))).rejects.toMatchObject({ name: "PhotoRefused", reason: "not_an_image" });
});

test("a HEIC file is known by its brand and its largest extent is its size", () => {
  // Box layout of ISO/IEC 23008-12: 'ispe', version and flags, width, height (big-endian).
  const bytes = new Uint8Array(80);
  bytes.set([0, 0, 0, 24, ...new TextEncoder().encode("ftypheic")], 0);
  bytes.set([...new TextEncoder().encode("ispe"), 0, 0, 0, 0, 0, 0, 2, 0, 0, 0, 2, 0], 20);
  bytes.set([...new TextEncoder().encode("ispe"), 0, 0, 0, 0, 0, 0, 15, 192, 0, 0, 11, 208], 44);
  expect(isHeic(bytes.buffer)).toBe(true);
  expect(heicSize(bytes.buffer)).toEqual({ width: 4032, height: 3024 });
  expect(isHeic(new TextEncoder().encode("<svg xmlns='…'></svg>").buffer)).toBe(false);
});
