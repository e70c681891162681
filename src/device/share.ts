/** How handing a file to the platform's share sheet ended. */
export type Shared = "shared" | "dismissed" | "not-possible";

/** A file to hand over. */
export interface SharedFile {
  readonly name: string;
  readonly type: string;
  readonly data: Uint8Array | string;
}

/** Whether there is a share sheet that takes files such as this one: some platforms go by the ending of the name. */
export function canShareFiles({ name, type }: Omit<SharedFile, "data"> = PDF): boolean {
  return can(fileOf({ name, type, data: "probe" }));
}

const PDF = { name: "record.pdf", type: "application/pdf" } as const;

/**
 * Opens the share sheet with a file. It opens only soon after a tap (W3C Web Share, "transient activation"): what takes long to
 * make has to be made before. Never rejects.
 */
export async function shareFile(file: SharedFile): Promise<Shared> {
  const made = fileOf(file);
  if (!can(made)) return "not-possible";
  try {
    await navigator.share({ files: [made], title: file.name });
    return "shared";
  } catch (error) {
    return error instanceof DOMException && error.name === "AbortError" ? "dismissed" : "not-possible";
  }
}

function can(file: File): boolean {
  return typeof navigator.canShare === "function" && navigator.canShare({ files: [file] });
}

function fileOf({ name, type, data }: SharedFile): File {
  return new File([typeof data === "string" ? data : new Uint8Array(data)], name, { type });
}
