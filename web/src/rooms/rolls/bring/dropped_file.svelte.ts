// A file that was dropped on the room: looked for in the chosen folders, used
// where it lies, or copied when one says so.
import { problemOf, Refused, told } from '$lib/api/server';
import type { Match, Problem } from '$lib/api/wire';
import { upload } from './upload';

/** A file is known by its first and its last mebibyte. Unit: bytes. */
const END = 1 << 20;

export type DropState = 'looking' | 'found' | 'not found' | 'copying' | 'failed';

/** The two ends of a file, one after the other; of a short one, all of it twice. */
export function endsOf(file: Blob): Blob {
  return new Blob([file.slice(0, END), file.slice(Math.max(0, file.size - END))]);
}

function addressOf(film: string, what: string, query: Record<string, string>): string {
  return `/api/films/${encodeURIComponent(film)}/${what}?${new URLSearchParams(query).toString()}`;
}

async function match(film: string, file: File): Promise<Match> {
  const address = addressOf(film, 'places/match', { name: file.name, bytes: String(file.size) });
  const asked = async () => {
    const response = await fetch(address, {
      method: 'POST',
      headers: { 'content-type': 'application/octet-stream' },
      body: endsOf(file),
    });
    const answer: unknown = await response.json();
    return response.ok ? { data: answer as Match, response } : { error: answer, response };
  };
  return told(asked());
}

export class DroppedFile {
  state = $state<DropState>('looking');
  /** Where it lies, once that is known. */
  path = $state<string | null>(null);
  /** What is free where a copy would go. Unit: bytes. */
  free = $state<number | null>(null);
  /** Bytes copied. */
  copied = $state(0);
  problem = $state.raw<Problem | null>(null);

  #stop: AbortController | null = null;
  #began = 0;

  constructor(
    readonly film: string,
    readonly file: File,
  ) {}

  /** Looks for it in the chosen folders. */
  async look(): Promise<void> {
    this.state = 'looking';
    this.problem = null;
    try {
      const found = await match(this.film, this.file);
      this.path = found.found[0]?.path ?? null;
      this.free = found.free ?? null;
      this.state = this.path === null ? 'not found' : 'found';
    } catch (why) {
      this.#failed(why);
    }
  }

  /** Copies it into the film's own folder. */
  async copy(now: () => number = () => performance.now()): Promise<void> {
    this.state = 'copying';
    this.problem = null;
    this.copied = 0;
    this.#stop = new AbortController();
    this.#began = now();
    const name = encodeURIComponent(this.file.name);
    const address = addressOf(this.film, `scans/${name}`, { bytes: String(this.file.size) });
    try {
      const copied = await upload(
        address,
        this.file,
        (bytes) => (this.copied = bytes),
        this.#stop.signal,
      );
      this.path = copied.path;
      this.state = 'found';
    } catch (why) {
      if (this.#stop.signal.aborted) this.state = 'not found';
      else this.#failed(why);
    }
  }

  stopCopy(): void {
    this.#stop?.abort();
  }

  /** How much longer a copy takes, at its rate so far. Unit: seconds. */
  secondsLeft(now: number = performance.now()): number | null {
    const spent = (now - this.#began) / 1000;
    if (this.copied === 0 || spent < 1) return null;
    return (spent / this.copied) * (this.file.size - this.copied);
  }

  /** Whether a copy would fit. */
  get fits(): boolean {
    return this.free === null || this.file.size <= this.free;
  }

  #failed(why: unknown): void {
    this.problem = why instanceof Refused ? why.problem : problemOf(why);
    this.state = 'failed';
  }
}
