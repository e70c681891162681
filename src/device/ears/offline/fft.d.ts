/** The part of fft.js that is used; the package ships no types. */
declare module "fft.js" {
  export default class FFT {
    /** @param size a power of two */
    constructor(size: number);
    createComplexArray(): number[];
    /** The lower half of the spectrum (size/2 + 1 bins, interleaved) of real samples. */
    realTransform(out: number[], samples: readonly number[]): void;
  }
}
