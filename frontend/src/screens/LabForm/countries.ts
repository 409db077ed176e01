// The countries of ISO 3166 by their two letters, named as this browser names them.

const LETTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"];
// Regions that browsers name beside the countries: reserved letters and groups of countries (CLDR's "not in ISO 3166-1", from memory).
const NOT_COUNTRIES = ["AC", "CP", "CQ", "DG", "EA", "EU", "EZ", "IC", "QO", "TA", "UN", "XA", "XB", "XK", "ZZ"];

export function countries(language: string): { code: string; name: string }[] {
  const names = new Intl.DisplayNames(language, { type: "region", fallback: "none" });
  const codes = LETTERS.flatMap((a) => LETTERS.map((b) => a + b)).filter((code) => !NOT_COUNTRIES.includes(code) && isKept(code));
  const named = codes.flatMap((code) => {
    const name = names.of(code);
    return name ? [{ code, name }] : [];
  });
  return named.sort((a, b) => a.name.localeCompare(b.name, language));
}

/** Letters that were given up mean the country that took their place. */
function isKept(code: string): boolean {
  return new Intl.Locale(`und-${code}`).region === code;
}
