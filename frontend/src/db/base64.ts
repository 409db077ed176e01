/** Bytes as text, for what travels as JSON. */
export function base64(bytes: ArrayBuffer): string {
  const view = new Uint8Array(bytes);
  let text = "";
  for (let at = 0; at < view.length; at += 32_768) text += String.fromCharCode(...view.subarray(at, at + 32_768));
  return btoa(text);
}
