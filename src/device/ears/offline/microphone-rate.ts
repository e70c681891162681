/** The rate that the microphone is opened at, in hertz: what most devices run at, so that the browser need not resample. */
export const MICROPHONE_RATE = 48_000;
