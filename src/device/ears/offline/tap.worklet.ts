/** The audio thread's part: gathers its blocks of 128 samples and hands them on as they fill up. */
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;

/** 40 ms at 48 kHz: few messages, little delay. */
const BLOCK = 1920;

class Tap extends AudioWorkletProcessor {
  private to: MessagePort | null = null;
  private block = new Float32Array(BLOCK);
  private filled = 0;

  constructor() {
    super();
    this.port.onmessage = ({ data }: MessageEvent<MessagePort>) => {
      this.to = data;
    };
  }

  process([input]: Float32Array[][]): boolean {
    const samples = input?.[0];
    if (!samples || !this.to) return true;
    for (const sample of samples) {
      this.block[this.filled] = sample;
      this.filled += 1;
      if (this.filled < BLOCK) continue;
      this.to.postMessage(this.block, [this.block.buffer]);
      this.block = new Float32Array(BLOCK);
      this.filled = 0;
    }
    return true;
  }
}

registerProcessor("tap", Tap);
