// The takes that can be laid in: circled first, found by typing.
import type { Piece, RollLog, Take } from '$lib/api/wire';
import { compareRolls, parseFrameName } from '$lib/film/frame_name';
import { parseGrouped } from '$lib/film/grouped';
import type { Shot } from './pieces';

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

/** A number of so many figures is a frame; a smaller one only beside the name of its roll. */
const FIGURES = 3;

/** Whether a take holds the frame that a word names: `R2·547`, or `547` on a roll named beside it. */
function holdsFrame(one: TakeToLayIn, word: string, words: readonly string[]): boolean {
  const holds = (frame: number) => one.take.in <= frame && frame < one.take.out;
  const named = parseFrameName(word);
  if (named) return named.roll.toLowerCase() === one.roll.toLowerCase() && holds(named.frame);
  const frame = parseGrouped(word);
  if (frame === null) return false;
  const meant = word.length >= FIGURES || words.includes(one.roll.toLowerCase());
  return meant && holds(frame);
}

/** Those that hold every word typed: in the slate, the action, the note or the roll, or as a frame. */
export function foundTakes(all: readonly TakeToLayIn[], typed: string): TakeToLayIn[] {
  const words = typed
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '');
  return all.filter((one) => {
    const { action, note, size } = one.take;
    const said = [one.slate, one.roll, action, note, size, one.take.rating].join(' ').toLowerCase();
    return words.every((word) => said.includes(word) || holdsFrame(one, word, words));
  });
}

/** The place asked for by Rolls in the address: `R1.402.546`, half-open. */
export function spanAsked(text: string): { roll: string; in: number; out: number } | null {
  const match = /^([A-Za-z0-9][A-Za-z0-9_-]{0,15})\.(\d{1,9})\.(\d{1,9})$/.exec(text);
  if (!match?.[1]) return null;
  const [first, thrown] = [Number(match[2]), Number(match[3])];
  return first < thrown ? { roll: match[1], in: first, out: thrown } : null;
}

/** The setup a piece was taken in, `3B`; empty where nothing tells. */
function setupOfPiece(piece: Piece): string {
  return (piece.slate ?? piece.logged ?? '').replace(/-T\d+$/, '');
}

const scene = (setup: string) => /^\d+/.exec(setup)?.[0] ?? setup;

/** The takes that may stand for a piece: of the same setup first, then of the same scene. */
export function takesInstead(all: readonly TakeToLayIn[], piece: Shot): TakeToLayIn[] {
  const setup = setupOfPiece(piece);
  const near = (one: TakeToLayIn) => {
    const its = one.take.setup ?? '';
    if (setup === '' || its === '') return 2;
    if (its === setup) return 0;
    return scene(its) === scene(setup) ? 1 : 2;
  };
  const others = all.filter(
    (one) => one.roll !== piece.roll || piece.in < one.take.in || one.take.out <= piece.in,
  );
  // Sorting keeps the order among those that are equally near.
  return others.sort((one, other) => near(one) - near(other));
}

/** As long a stretch of another take as a piece has, as far from the take's head as there. */
export function sameStretch(
  piece: Shot,
  take: Take,
): { readonly in: number; readonly out: number } {
  const length = Math.min(piece.out - piece.in, take.out - take.in);
  const into = piece.in - (piece.take?.in ?? piece.in);
  const first = take.in + Math.max(0, Math.min(into, take.out - take.in - length));
  return { in: first, out: first + length };
}
