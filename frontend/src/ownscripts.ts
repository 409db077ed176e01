/** The page's content policy lets no text become a script address (Trusted Types); this says which may: the app's own. */

const OWN = /^\/(sw\.js$|assets\/)/;

interface Factory {
  createPolicy(name: "default", rules: { createScriptURL(address: string): string }): unknown;
}

/** Asked by the browser itself before a worker is started; a browser without Trusted Types starts it unasked. */
export function ownScript(address: string): string {
  const url = new URL(address, location.href);
  if (url.origin !== location.origin || !OWN.test(url.pathname)) throw new TypeError(`not a script of this app: ${url.pathname}`);
  return url.href;
}

export function startOnlyOwnScripts(browser: { trustedTypes?: Factory }): void {
  browser.trustedTypes?.createPolicy("default", { createScriptURL: ownScript });
}
