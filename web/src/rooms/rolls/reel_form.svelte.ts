// A reel, core or can: what is said of it and what is wound on it, while it is written.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { Film, FilmChange, Kept } from '$lib/api/wire';

export type Reel = Film['reels'][number];
export type ReelWords = Extract<FilmChange, { film_change: 'put_reel' }>['words'];
type Wound = NonNullable<ReelWords['wound']>[number];

export const REEL_KINDS = [
  { value: 'reel', words: 'reel' },
  { value: 'core', words: 'core' },
  { value: 'can', words: 'can' },
] as const;
export const REEL_LIES = [
  { value: 'heads', words: 'heads out' },
  { value: 'tails', words: 'tails out' },
  { value: 'not-known', words: 'not known' },
] as const;
export type ReelKind = (typeof REEL_KINDS)[number]['value'];
export type ReelLies = (typeof REEL_LIES)[number]['value'];

/** `R1, R2 0–1800`: what is wound on a reel, as one writes it. */
export function woundText(wound: readonly Wound[]): string {
  return wound
    .map((part) => {
      const { in: first, out: thrown } = part;
      const all = first == null || thrown == null;
      return all ? part.roll : `${part.roll} ${first}–${thrown - 1}`;
    })
    .join(', ');
}

/** Reads `R1, R2 0-1799`; the first part that cannot be read as a text. */
export function woundFrom(text: string): { wound: Wound[] } | { wrong: string } {
  const wound: Wound[] = [];
  for (const part of text.split(/[,;\n]/).map((one) => one.trim())) {
    if (part === '') continue;
    const found = /^(\S+)(?:\s+(\d+)\s*(?:[-–]|to)\s*(\d+))?$/i.exec(part);
    const roll = found?.[1];
    if (!roll) return { wrong: part };
    const [first, last] = [found[2], found[3]];
    if (first === undefined || last === undefined) wound.push({ roll });
    else if (Number(last) < Number(first)) return { wrong: part };
    else wound.push({ roll, in: Number(first), out: Number(last) + 1 });
  }
  return { wound };
}

export interface ReelDesk {
  readonly film: Film | null;
  change(change: FilmChange, seen: number): Promise<Kept>;
}

/** The next name for a reel or can in the order of those that are there. */
export function nextReelName(reels: readonly Reel[], kind: ReelKind): string {
  const letter = kind === 'can' ? 'Can' : kind === 'core' ? 'Core' : 'Reel';
  const numbers = reels.map((reel) => new RegExp(`^${letter} (\\d+)$`, 'i').exec(reel.reel)?.[1]);
  return `${letter} ${Math.max(0, ...numbers.filter(Boolean).map(Number)) + 1}`;
}

export class ReelForm {
  name = $state('');
  kind = $state<ReelKind>('can');
  lies = $state<ReelLies>('not-known');
  feet = $state('');
  across = $state('');
  hub = $state('');
  keptIn = $state('');
  accession = $state('');
  note = $state('');
  wound = $state('');
  problem = $state<string | null>(null);

  constructor(
    private readonly desk: ReelDesk,
    /** The one that is rewritten; null for a new one. */
    readonly before: Reel | null,
  ) {
    const reels = desk.film?.reels ?? [];
    this.kind = REEL_KINDS.find((one) => one.value === before?.kind)?.value ?? 'can';
    this.lies = REEL_LIES.find((one) => one.value === before?.lies)?.value ?? 'not-known';
    this.name = before?.reel ?? nextReelName(reels, this.kind);
    this.feet = before?.feet ? String(before.feet) : '';
    this.across = before?.across_mm ?? '';
    this.hub = before?.hub_mm ?? '';
    this.keptIn = before?.kept_in ?? '';
    this.accession = before?.accession ?? '';
    this.note = before?.note ?? '';
    this.wound = woundText(before?.wound ?? []);
  }

  async keep(): Promise<boolean> {
    const reel = this.name.trim();
    const found = woundFrom(this.wound);
    if ('wrong' in found) {
      this.problem = `“${found.wrong}” is no roll or part of one. Write R1, or R2 0–1799.`;
      return false;
    }
    const feet = this.feet.trim();
    if (reel === '' || !/^\d*$/.test(feet)) {
      this.problem = reel === '' ? 'Give it a name, such as Can 1.' : 'Feet are a whole number.';
      return false;
    }
    const words: ReelWords = {
      kind: this.kind,
      lies: this.lies,
      feet: feet === '' ? null : Number(feet),
      across_mm: this.across.trim() || null,
      hub_mm: this.hub.trim() || null,
      kept_in: this.keptIn.trim(),
      accession: this.accession.trim(),
      note: this.note.trim(),
      wound: found.wound,
    };
    return this.send({ film_change: 'put_reel', reel, words });
  }

  /** The reel is gone; the rolls on it are not. */
  takeAway(): Promise<boolean> {
    return this.send({ film_change: 'remove_reel', reel: this.before?.reel ?? '' });
  }

  private async send(change: FilmChange): Promise<boolean> {
    this.problem = null;
    try {
      await this.desk.change(change, this.desk.film?.revision ?? 0);
      return true;
    } catch (why) {
      this.problem = problemWords(problemOf(why));
      return false;
    }
  }
}
