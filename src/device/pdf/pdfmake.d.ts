import "pdfmake";

// What its types leave out: the files that it knows from memory.
declare module "pdfmake" {
  export const virtualfs: { writeFileSync(name: string, content: Uint8Array): void };
}
