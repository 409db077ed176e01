/** What we use of the standard Trusted Types; TypeScript's own library does not know them yet. */
interface ScriptVouching {
  createPolicy(name: string, rules: { createScriptURL: (address: string) => string }): { createScriptURL(address: string): unknown };
}
declare var trustedTypes: ScriptVouching | undefined;
