// From many measurements to the figures that are printed.

/** Measurements of one thing, in rising order. */
export class Figures {
  private readonly sorted: readonly number[];

  constructor(measured: Iterable<number>) {
    this.sorted = [...measured].sort((a, b) => a - b);
  }

  get count(): number {
    return this.sorted.length;
  }

  /** The middle one; of an even number the mean of the middle two. */
  get median(): number {
    const { count } = this;
    return (this.at(Math.floor((count - 1) / 2)) + this.at(Math.floor(count / 2))) / 2;
  }

  /** The least that at least 99 of 100 do not exceed (nearest rank). */
  get ninetyNinth(): number {
    return this.at(Math.ceil(this.count * 0.99) - 1);
  }

  get worst(): number {
    return this.at(this.count - 1);
  }

  private at(place: number): number {
    return this.sorted[place] ?? NaN;
  }
}

/** `0.83 ms`, `41.2 ms`, `1.20 s`. Unit of `ms`: milliseconds. */
export function time(ms: number): string {
  if (ms >= 1000) return `${(ms / 1000).toFixed(2)} s`;
  return ms < 10 ? `${ms.toFixed(2)} ms` : `${ms.toFixed(1)} ms`;
}

/** `245.7 kB`. */
export function kilobytes(bytes: number): string {
  return `${(bytes / 1000).toFixed(1)} kB`;
}

/** `123 MB`. */
export function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(0)} MB`;
}

/** A whole number: `1,440`. */
export function counted(count: number): string {
  return count.toLocaleString('en');
}
