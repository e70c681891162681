/** One way to say a text aloud. */
export interface Voice {
  /**
   * Says one text, never while another is being said. Resolves when it is over or was cut off, to true; to false where
   * this voice cannot say it. Never rejects.
   */
  say(text: string): Promise<boolean>;
  /** Falls silent now. */
  cancel(): void;
}
