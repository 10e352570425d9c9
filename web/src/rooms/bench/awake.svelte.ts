// Keeps the screen of the tablet awake where the browser can; says so where it cannot.

/** What a browser gives that can keep its screen awake. */
export interface Lock {
  readonly release: () => Promise<void>;
}
export interface Locks {
  readonly request: (kind: 'screen') => Promise<Lock>;
}

function locksHere(): Locks | null {
  const found = (navigator as { wakeLock?: Locks }).wakeLock;
  return found ?? null;
}

export class Awake {
  /** Whether the screen is kept awake; null until it is known. */
  held = $state<boolean | null>(null);
  #lock: Lock | null = null;

  constructor(private readonly locks: Locks | null = locksHere()) {}

  /** Asks for it; a page that was out of sight has lost it and asks again. */
  async hold(): Promise<void> {
    try {
      this.#lock = this.locks ? await this.locks.request('screen') : null;
      this.held = this.#lock !== null;
    } catch {
      // The battery is low, or the page is not in sight.
      this.held = false;
    }
  }

  async letGo(): Promise<void> {
    await this.#lock?.release().catch(() => undefined);
    this.#lock = null;
  }
}
