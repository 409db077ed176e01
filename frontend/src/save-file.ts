// Hands a person a file of what is on the phone, by the browser's own "save".

/** Make the file and offer it; resolves to false when it could not be made. */
export async function saveFile(make: () => Promise<Blob>, name = "knotbed-phone.json"): Promise<boolean> {
  try {
    const url = URL.createObjectURL(await make());
    const link = document.createElement("a");
    link.href = url;
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    return true;
  } catch {
    return false;
  }
}
