import { createCanvas, DOMMatrix, ImageData, Path2D } from "@napi-rs/canvas";

/** A page of a PDF file as an independent reader sees it. */
export interface PdfPage {
  /** Size in points. */
  readonly width: number;
  readonly height: number;
  /** Size in pixels. */
  readonly columns: number;
  readonly rows: number;
  /** Its words in reading order, one space between. */
  readonly text: string;
  /** Pixels, RGBA row by row, at `PIXELS` a point. */
  readonly pixels: Uint8ClampedArray;
}

export interface PdfFile {
  readonly title: string;
  readonly pages: readonly PdfPage[];
}

/** Pixels a point: 144 dpi. */
const PIXELS = 2;

/** Reads a PDF file with pdf.js and draws its pages on white. */
export async function readPdf(bytes: Uint8Array): Promise<PdfFile> {
  // Those of the canvas that is drawn on, before the reader looks for its own.
  Object.assign(globalThis, { Path2D, DOMMatrix, ImageData });
  const { getDocument } = await import("pdfjs-dist/legacy/build/pdf.mjs");
  const file = await getDocument({ data: bytes.slice(), verbosity: 0 }).promise;
  const { info } = await file.getMetadata();
  const pages: PdfPage[] = [];
  for (let number = 1; number <= file.numPages; number += 1) {
    const page = await file.getPage(number);
    const viewport = page.getViewport({ scale: PIXELS });
    const canvas = createCanvas(viewport.width, viewport.height);
    const context = canvas.getContext("2d");
    await page.render({ canvasContext: context as unknown as CanvasRenderingContext2D, viewport }).promise;
    const { items } = await page.getTextContent();
    pages.push({
      columns: canvas.width,
      rows: canvas.height,
      width: viewport.width / PIXELS,
      height: viewport.height / PIXELS,
      text: items
        .map((item) => ("str" in item ? `${item.str}${item.hasEOL ? " " : ""}` : ""))
        .join("")
        .replace(/\s+/g, " "),
      pixels: context.getImageData(0, 0, canvas.width, canvas.height).data,
    });
  }
  return { title: "Title" in info ? String(info.Title) : "", pages };
}

/**
 * A text without its spaces and in small letters: to look for headings that are set with their letters apart, which some
 * browsers write as letters and spaces.
 */
export const squeezed = (text: string): string => text.toLowerCase().replaceAll(/\s+/g, "");

/** The most that a pixel's red, green and blue differ, 0 to 255: 0 where all is grey. */
export function colour({ pixels }: PdfPage): number {
  let most = 0;
  for (let i = 0; i < pixels.length; i += 4) {
    const [red = 0, green = 0, blue = 0] = pixels.subarray(i, i + 3);
    most = Math.max(most, Math.abs(red - green), Math.abs(green - blue));
  }
  return most;
}

/** How dark the darkest pixel within so many points of an edge is, 0 white to 255 black. */
export function darkestAtEdge({ pixels, columns, rows }: PdfPage, margin: number): number {
  const edge = margin * PIXELS;
  let darkest = 0;
  for (let row = 0; row < rows; row += 1) {
    for (let column = 0; column < columns; column += 1) {
      const inside = row >= edge && row < rows - edge && column >= edge && column < columns - edge;
      if (!inside) darkest = Math.max(darkest, 255 - (pixels[4 * (row * columns + column)] ?? 255));
    }
  }
  return darkest;
}

/** The share of pixels that are darker than middle grey. */
export function ink({ pixels }: PdfPage): number {
  let dark = 0;
  for (let i = 0; i < pixels.length; i += 4) if ((pixels[i] ?? 255) < 128) dark += 1;
  return (4 * dark) / pixels.length;
}
