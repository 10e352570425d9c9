// The takes that can be laid in: circled first, found by typing.
import type { RollLog, Take } from '$lib/api/wire';
import { compareRolls } from '$lib/film/frame_name';

export interface TakeToLayIn {
  readonly roll: string;
  readonly take: Take;
  /** `3B-T2`, or empty where it was not named. */
  readonly slate: string;
}

export function slateOfTake(take: Take): string {
  return take.setup && take.take ? `${take.setup}-T${take.take}` : '';
}

const ORDER: Record<string, number> = { circled: 0, hold: 1, none: 2, ng: 3 };

function order(take: Take): number {
  return ORDER[take.rating ?? 'none'] ?? 2;
}

/** All takes, the circled first, then those on hold, then by roll and frame. */
export function takesToLayIn(logs: Iterable<RollLog>): TakeToLayIn[] {
  const all = [...logs].flatMap((log) =>
    log.takes.map((take) => ({ roll: log.roll.roll, take, slate: slateOfTake(take) })),
  );
  return all.sort(
    (one, other) =>
      order(one.take) - order(other.take) ||
      compareRolls(one.roll, other.roll) ||
      one.take.in - other.take.in,
  );
}

/** Those that hold every word typed: in the slate, the action, the note or the roll. */
export function foundTakes(all: readonly TakeToLayIn[], typed: string): TakeToLayIn[] {
  const words = typed
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  return all.filter((one) => {
    const { action, note, size } = one.take;
    const said = [one.slate, one.roll, action, note, size, one.take.rating].join(' ').toLowerCase();
    return words.every((word) => said.includes(word));
  });
}

/** The place asked for by Rolls in the address: `R1.402.546`, half-open. */
export function spanAsked(text: string): { roll: string; in: number; out: number } | null {
  const match = /^([A-Za-z0-9][A-Za-z0-9_-]{0,15})\.(\d{1,9})\.(\d{1,9})$/.exec(text);
  if (!match?.[1]) return null;
  const [first, thrown] = [Number(match[2]), Number(match[3])];
  return first < thrown ? { roll: match[1], in: first, out: thrown } : null;
}
