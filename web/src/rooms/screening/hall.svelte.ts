// The hall: two of lens, width of the picture and distance make the third.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { Throw, ThrowRequest } from '$lib/api/wire';
import { numberFrom } from './reel_makeup.svelte';

export const WANTED = [
  { value: 'distance', words: 'the distance' },
  { value: 'width', words: 'the picture' },
  { value: 'lens', words: 'the lens' },
] as const;
export type Wanted = (typeof WANTED)[number]['value'];

export interface HallDesk {
  throwOf(body: ThrowRequest): Promise<Throw>;
}

/** A length in a hall as it is typed: a bare number is metres. */
export function hallLength(typed: string): string | null {
  const plain = typed.trim().replace(',', '.');
  if (plain === '') return null;
  return /^\d*\.?\d+$/.test(plain) ? `${plain}m` : plain;
}

export class Hall {
  wanted = $state<Wanted>('distance');
  lens = $state('20');
  width = $state('1.2m');
  distance = $state('4.5m');
  lastRow = $state('5m');
  found = $state.raw<Throw | null>(null);
  problem = $state<string | null>(null);
  private asked = 0;

  constructor(private readonly desk: HallDesk) {}

  request(gauge: string): ThrowRequest {
    const { wanted } = this;
    return {
      gauge,
      lens_mm: wanted === 'lens' ? null : numberFrom(this.lens),
      width: wanted === 'width' ? null : hallLength(this.width),
      distance: wanted === 'distance' ? null : hallLength(this.distance),
      last_row: hallLength(this.lastRow),
    };
  }

  /** Asks anew; of several answers on their way only the last counts. */
  async ask(gauge: string): Promise<void> {
    const mine = ++this.asked;
    const request = this.request(gauge);
    if (Number.isNaN(request.lens_mm)) {
      this.problem = 'The lens is a number of millimetres, such as 20.';
      return;
    }
    try {
      const found = await this.desk.throwOf(request);
      if (mine !== this.asked) return;
      this.found = found;
      this.problem = null;
    } catch (why) {
      if (mine === this.asked) this.problem = problemWords(problemOf(why));
    }
  }
}

/** `1.20 m`. */
export function metres(mm: number): string {
  return `${(mm / 1000).toFixed(2)} m`;
}
