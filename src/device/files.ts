/** The address of a download is kept for so long, ms: some browsers read it only once the person has agreed (from memory: Safari). */
const KEPT_MS = 60_000;

/** Hands a text or bytes to the person as a downloaded file. */
export function download(name: string, data: string | Uint8Array, type = "application/json"): void {
  const part = typeof data === "string" ? data : new Uint8Array(data);
  downloadBlob(name, new Blob([part], { type }));
}

/** The same for what is made already. */
export function downloadBlob(name: string, file: Blob): void {
  const url = URL.createObjectURL(file);
  const link = document.createElement("a");
  link.href = url;
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), KEPT_MS);
}

/** The bytes of a chosen file. Rejects when it cannot be read. */
export async function readBytes(file: Blob): Promise<Uint8Array> {
  return new Uint8Array(await file.arrayBuffer());
}

/** A JSON file of the app's own. Rejects where it cannot be fetched or is none. */
export async function readJsonFile(address: string): Promise<unknown> {
  const response = await fetch(address);
  if (!response.ok) throw new Error(`${address}: status ${response.status}`);
  return response.json();
}
