// Double-run film: a strip that ran through the camera twice is two rolls, side by
// side until it is slit. What is said of it, and what one writes down.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { FilmChange, RollHead, RollLog } from '$lib/api/wire';
import type { InHandDesk } from './in_hand.svelte';

type Half = NonNullable<RollHead['half']>;

export const RUNS = [
  { value: 'A', words: 'run first: side A' },
  { value: 'B', words: 'run second: side B' },
] as const;

export const SLIT = [
  { value: 'no', words: 'not slit' },
  { value: 'yes', words: 'slit' },
] as const;

export type Run = (typeof RUNS)[number]['value'];
export type Slit = (typeof SLIT)[number]['value'];

/** Only this gauge is run twice and slit. */
const RUN_TWICE = 'regular8';

/** Whether halves are a matter for this roll at all. */
export function mayBeHalf(head: RollHead): boolean {
  return head.gauge === RUN_TWICE || Boolean(head.half);
}

/** `half A, not slit`: as short as a can. */
export function halfShort(half: Half): string {
  return `half ${half.side}, ${half.slit ? 'slit' : 'not slit'}`;
}

/** Which half the roll is, and what lies beside it. */
export function halfSentence(roll: string, half: Half): string {
  const run = half.side === 'A' ? 'run first' : 'run second';
  const other = half.other ? `; the other half is ${half.other}` : '';
  return `${roll} is side ${half.side} of strip ${half.strip}, ${run}${other}.`;
}

/** Why nothing can be cut before the strip is slit; nothing once it is. */
export function uncuttable(half: Half): string | null {
  if (half.slit) return null;
  return `Strip ${half.strip} is not slit: a blade that goes through one half goes through the other too. So nothing of it can be cut before it is slit.`;
}

/** How the halves lie, for the figure. */
export function lieWords(roll: string, half: Half): string {
  const other = half.other ?? 'the other half';
  if (half.slit) {
    return `${roll} and ${other} are apart: each is 8 mm wide, runs downward and stands heads up.`;
  }
  const [a, b] = half.side === 'A' ? [roll, other] : [other, roll];
  return `The strip is 16 mm wide still. ${a} runs down it; ${b} lies beside, runs up, and stands on its head: in a scan of the whole strip its last frame comes first.`;
}

/** Rolls that may be the other half: of the same gauge, and of no strip yet. */
export function othersFor(roll: string, heads: readonly RollHead[]): string[] {
  return heads
    .filter((head) => head.gauge === RUN_TWICE && !head.half && head.roll !== roll)
    .map((head) => head.roll);
}

/** `R4` of `R4a` and `R4b`; the two names where they have no beginning in common. */
export function stripName(one: string, other: string): string {
  let at = 0;
  while (at < one.length && one[at]?.toUpperCase() === other[at]?.toUpperCase()) at += 1;
  const common = one.slice(0, at);
  // The letter R alone names no strip.
  return /\d$/.test(common) ? common : `${one}-${other}`.slice(0, 16);
}

export class Halves {
  other = $state('');
  run = $state<Run>('A');
  slit = $state<Slit>('no');
  /** What was refused last. */
  problem = $state.raw<string | null>(null);

  #named = $state<string | null>(null);

  constructor(
    private readonly desk: InHandDesk,
    private readonly log: () => RollLog,
    private readonly heads: () => readonly RollHead[],
  ) {
    // The roll whose name is nearest is the likeliest.
    const like = this.others.find((name) => !stripName(this.roll, name).includes('-'));
    this.other = like ?? this.others[0] ?? '';
    if (this.other !== '' && this.other < this.roll) this.run = 'B';
  }

  get roll(): string {
    return this.log().roll.roll;
  }

  get half(): Half | null {
    return this.log().roll.half ?? null;
  }

  get others(): string[] {
    return othersFor(this.roll, this.heads());
  }

  /** What the strip is to be called: as somebody typed it, else by its rolls. */
  get strip(): string {
    return this.#named ?? (this.other ? stripName(this.roll, this.other) : '');
  }

  set strip(words: string) {
    this.#named = words;
  }

  pair(): Promise<boolean> {
    const { roll, other, run } = this;
    if (other === '') {
      this.problem = 'Say which roll is the other half.';
      return Promise.resolve(false);
    }
    const [a, b] = run === 'A' ? [roll, other] : [other, roll];
    const strip = this.strip.trim();
    return this.keep({ film_change: 'pair_halves', strip, a, b, slit: this.slit === 'yes' });
  }

  /** The strip has been slit, or was not after all. */
  slitNow(slit: boolean): Promise<boolean> {
    const { half } = this;
    if (!half) return Promise.resolve(false);
    return this.keep({ film_change: 'slit_strip', strip: half.strip, slit });
  }

  part(): Promise<boolean> {
    const { half } = this;
    if (!half) return Promise.resolve(false);
    return this.keep({ film_change: 'part_halves', strip: half.strip });
  }

  private async keep(change: FilmChange): Promise<boolean> {
    this.problem = null;
    try {
      await this.desk.change(change, this.log().revision);
      return true;
    } catch (why) {
      this.problem = problemWords(problemOf(why));
      return false;
    }
  }
}
