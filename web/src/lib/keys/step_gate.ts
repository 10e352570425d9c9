// Keys that are held down: the keyboard repeats them as it likes, but film
// moves at most one step each time the screen is drawn, and stands when the
// finger is lifted.

/** Lets one step through each time the screen is drawn. */
export class StepGate {
  readonly #requestFrame: (act: () => void) => number;
  readonly #cancelFrame: (request: number) => void;
  #waiting: { readonly key: string; readonly request: number } | null = null;

  constructor(requestFrame: (act: () => void) => number, cancelFrame: (request: number) => void) {
    this.#requestFrame = requestFrame;
    this.#cancelFrame = cancelFrame;
  }

  /** A key repeats: it acts when the screen is next drawn, unless one is waiting already. */
  repeat(key: string, act: () => void): void {
    if (this.#waiting) return;
    const request = this.#requestFrame(() => {
      this.#waiting = null;
      act();
    });
    this.#waiting = { key, request };
  }

  /** A key was lifted, or with none named, the window was left: no step is owed. */
  lift(key?: string): void {
    if (!this.#waiting || (key !== undefined && this.#waiting.key !== key)) return;
    this.#cancelFrame(this.#waiting.request);
    this.#waiting = null;
  }
}
