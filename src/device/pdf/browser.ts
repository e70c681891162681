/** All that a browser makes a PDF file with, in one piece that is loaded when the first is made. */
export { fetchFonts } from "./fonts-browser.ts";
export { makePdf } from "./make.ts";
