import fc from "fast-check";
import { expect, test } from "vitest";
import { checkSign, newBagCode, SIGNS } from "../../src/capture/code";

const sign = fc.constantFrom(...SIGNS);
const isRight = (typed: string) => checkSign(typed.slice(0, 4)) === typed[4];
const code = fc.array(sign, { minLength: 4, maxLength: 4 }).map((signs) => signs.join("") + checkSign(signs.join("")));

test("with the ten digits it is the check digit of ISO/IEC 7812-1", () => {
  // The widely printed worked example of the Luhn formula (ISO/IEC 7812-1, annex B); the number from memory.
  expect(checkSign("7992739871", "0123456789")).toBe("3");
});

test("the alphabet has thirty signs, none of which is read for another", () => {
  expect(SIGNS).toHaveLength(30);
  expect(new Set(SIGNS).size).toBe(30);
  expect(SIGNS).not.toMatch(/[01OILU]/);
});

test("a new code has four signs of the alphabet and ends in their check sign", () => {
  for (let at = 0; at < 200; at += 1) {
    const made = newBagCode();
    expect(made).toMatch(new RegExp(`^[${SIGNS}]{5}$`));
    expect(isRight(made)).toBe(true);
  }
});

test("one wrong sign is always noticed", () => {
  fc.assert(fc.property(code, fc.nat(4), sign, (right, at, wrong) => {
    fc.pre(right[at] !== wrong);
    expect(isRight(right.slice(0, at) + wrong + right.slice(at + 1))).toBe(false);
  }));
});

test("two neighbours swapped are noticed, but for the first and last sign of the alphabet", () => {
  // The one blind spot of the formula: 0 and 9 with digits, the first and the last sign here.
  fc.assert(fc.property(code, fc.nat(3), (right, at) => {
    const [one, two] = [right[at]!, right[at + 1]!];
    const blind = [one, two].sort().join("") === [SIGNS[0], SIGNS.at(-1)].sort().join("");
    fc.pre(one !== two && !blind);
    expect(isRight(right.slice(0, at) + two + one + right.slice(at + 2))).toBe(false);
  }));
});

test("every sign is as likely as the others", () => {
  let next = 0;
  const counter = (bytes: Uint8Array) => (bytes[0] = next++ % 256);
  const seen = new Map<string, number>();
  for (let at = 0; at < 600; at += 1) for (const one of newBagCode(counter).slice(0, 4)) seen.set(one, (seen.get(one) ?? 0) + 1);
  expect([...seen.values()]).toEqual(Array(30).fill(80));
});
