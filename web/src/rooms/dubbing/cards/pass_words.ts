// The log of the mix: a pass as it is begun, and its faults as they are typed and shown.
import { grouped } from '$lib/film/grouped';
import type { Dub, Pass, PassWords } from '../dub_types';

export const KEPT: readonly { value: PassWords['keep']; words: string }[] = [
  { value: 'open', words: 'not decided' },
  { value: 'kept', words: 'keep' },
  { value: 'given_up', words: 'give up' },
];

/** The passes of a version; those that name none were of any. */
export function passesOf(dub: Dub): readonly Pass[] {
  return dub.passes.filter(({ pass }) => pass.cut.trim() === '' || pass.cut === dub.cut);
}

/** The next pass: its number is one more than the highest, it begins with the leader. */
export function nextPass(dub: Dub): PassWords {
  const numbers = passesOf(dub).map(({ pass }) => Number.parseInt(pass.pass, 10));
  const highest = Math.max(0, ...numbers.filter((one) => one > 0));
  return {
    pass: String(highest + 1),
    cut: dub.cut,
    start: dub.mix.leader === 0 ? 0 : -dub.mix.leader,
    speed: dub.mix.speed,
    faults: [],
    keep: 'open',
  };
}

/** `1,728 music late`, a line each. */
export function faultsWritten(faults: PassWords['faults']): string {
  return faults.map(({ at, what }) => `${grouped(at)} ${what}`.trim()).join('\n');
}

/** What was typed, in the order of the film; null where a line begins with no frame. */
export function faultsTyped(typed: string): PassWords['faults'] | null {
  const lines = typed.split('\n').filter((line) => line.trim() !== '');
  const read = lines.map((line) => {
    const found = /^(\d{1,3}(?:[,.'\u00a0\u202f]?\d{3})*|\d+)(?:[\s:]+(.*))?$/.exec(line.trim());
    const at = Number((found?.[1] ?? '').replace(/\D/g, '') || Number.NaN);
    return { at, what: (found?.[2] ?? '').trim() };
  });
  if (read.some(({ at }) => !(at >= 0 && at < 2 ** 31))) return null;
  return read.sort((one, other) => one.at - other.at);
}
