// The stream of events from the program, and whether it is there at all.
import type { JobEvent } from '$lib/api/wire';

type Hearer = (event: JobEvent) => void;

/** Where the program is asked. */
export interface Ways {
  readonly events: string;
  /** What answers quickly, to see whether the program is back. */
  readonly look: string;
}

const MAIN: Ways = { events: '/api/events', look: '/api/jobs' };

/** Between two looks whether the program is back. Unit: milliseconds. */
const LOOK_AGAIN = 1000;

export class Connection {
  /** When the program stopped answering; null while it is there. */
  lostSince = $state<Date | null>(null);
  /** The program is there again but no longer knows this browser. */
  strange = $state(false);

  private readonly hearers = new Set<Hearer>();
  private readonly returns = new Set<() => void>();
  private source: EventSource | null = null;
  private timer: ReturnType<typeof setTimeout> | null = null;

  constructor(private readonly ways: Ways = MAIN) {}

  /** Begins to listen. */
  open(): void {
    this.listen();
  }

  close(): void {
    if (this.timer) clearTimeout(this.timer);
    this.timer = null;
    this.source?.close();
    this.source = null;
  }

  /** Hears every event; gives back how to stop. */
  hear(hearer: Hearer): () => void {
    this.hearers.add(hearer);
    return () => this.hearers.delete(hearer);
  }

  /** Is called each time the program is there again after it was lost. */
  onReturn(back: () => void): () => void {
    this.returns.add(back);
    return () => this.returns.delete(back);
  }

  /**
   * Nobody answered. The stream may live on where a single answer was lost, so it
   * is opened anew: what waits is sent when it has come back.
   */
  notReached(): void {
    this.lostSince ??= new Date();
    this.source?.close();
    this.source = null;
    this.lookLater();
  }

  private listen(): void {
    const source = new EventSource(this.ways.events);
    this.source = source;
    source.onopen = () => this.reached();
    source.onmessage = (message) => this.tell(message.data);
    // The browser's own way of trying again is slow; we look ourselves.
    source.onerror = () => {
      if (source === this.source) this.notReached();
    };
  }

  private lookLater(): void {
    this.timer ??= setTimeout(() => {
      this.timer = null;
      void this.look();
    }, LOOK_AGAIN);
  }

  private async look(): Promise<void> {
    try {
      const answer = await fetch(this.ways.look, { credentials: 'same-origin' });
      this.strange = answer.status === 401;
      if (answer.ok) return this.listen();
    } catch {
      // Still gone.
    }
    this.lookLater();
  }

  private reached(): void {
    const wasLost = this.lostSince !== null;
    this.lostSince = null;
    this.strange = false;
    if (wasLost) this.returns.forEach((back) => back());
  }

  private tell(text: unknown): void {
    if (typeof text !== 'string' || text === '') return;
    const event = JSON.parse(text) as JobEvent;
    this.hearers.forEach((hear) => hear(event));
  }
}
