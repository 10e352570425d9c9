// The ways out of a conflict as buttons: what is done, and what it costs.
import type { Cut, CutChange, Remedy } from '$lib/api/wire';
import { joinCosts, joinKind, joinRow } from './joins';

/** A button of a slip that makes a change. */
export interface WayOut {
  readonly words: string;
  /** What it costs. */
  readonly small: string;
  readonly change: CutChange;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

/** A remedy as a button: what is done, and what it costs in small letters. */
export function wayOut(remedy: Remedy, cut: Cut): WayOut {
  if (remedy.kind === 'other_join') {
    const match = /join (.+) with (\w+)/.exec(remedy.text);
    const kind = joinKind(match?.[2] ?? '');
    const row = joinRow(cut, kind);
    const eats = joinCosts({ ...row, scar_out: 0, scar_in: 0 });
    const words = match ? `${capital(kind)} at ${match[1]}` : capital(remedy.text);
    return { words, small: eats, change: remedy.change };
  }
  const comma = remedy.text.lastIndexOf(', ');
  const [words, small] =
    comma < 0 ? [remedy.text, ''] : [remedy.text.slice(0, comma), remedy.text.slice(comma + 2)];
  return { words: capital(words), small, change: remedy.change };
}
