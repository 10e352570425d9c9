// The clock by which pictures run while sound is heard: the sound's own, on the screen's scale.

export class PictureClock {
  private start: number | null = null;
  private last = 0;

  /** @param elapsed how much of the film was heard since its start; null: no sound runs. Unit: s. */
  constructor(private readonly elapsed: () => number | null) {}

  /** The pictures have begun, at the moment that was last asked for. */
  begin(): void {
    this.start = this.last;
  }

  stop(): void {
    this.start = null;
  }

  /** The moment that belongs to what is heard; the screen's own without sound. Unit: ms. */
  at(ms: number): number {
    this.last = ms;
    const elapsed = this.elapsed();
    if (this.start === null || elapsed === null) return ms;
    // Before its first sample is heard the first picture stands.
    return this.start + Math.max(0, elapsed) * 1000;
  }
}
