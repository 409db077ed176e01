/** The short code on a sample bag: four random signs and a check sign (Luhn mod N with N = 30). */

export const SIGNS = "23456789ABCDEFGHJKMNPQRSTVWXYZ"; // no 0 O, 1 I L, U

export function newBagCode(random: (bytes: Uint8Array<ArrayBuffer>) => unknown = (bytes) => crypto.getRandomValues(bytes)): string {
  let data = "";
  while (data.length < 4) {
    const byte = new Uint8Array(1);
    random(byte);
    // 240 = 8 * 30: the bytes above it would make the first signs more likely than the others.
    if (byte[0]! < 240) data += SIGNS[byte[0]! % SIGNS.length];
  }
  return data + checkSign(data);
}

/** Luhn mod N over any alphabet; with the ten digits it is the check digit of ISO/IEC 7812-1. */
export function checkSign(data: string, signs: string = SIGNS): string {
  const n = signs.length;
  let sum = 0;
  [...data].reverse().forEach((sign, at) => {
    const addend = signs.indexOf(sign) * (at % 2 === 0 ? 2 : 1);
    sum += Math.floor(addend / n) + (addend % n);
  });
  return signs[(n - (sum % n)) % n]!;
}
