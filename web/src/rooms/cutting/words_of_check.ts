// What the strand check has found, in the words for a slip.
import type { Check, Conflict, Cut, RollHead } from '$lib/api/wire';
import { frameName } from '$lib/film/frame_name';
import { grouped } from '$lib/film/grouped';
import { ringOfConflict } from './conflict_places';
import { joinKindAt, joinName, joinRow } from './joins';
import { isShot } from './pieces';
import { slateOf } from './piece_words';
import { type WayOut, waysOut } from './ways_out';
import { FramesLie } from './where_frames_lie';

/** Words, some of them the name of a frame or a count. */
export type Run = string | { readonly count: string };

/** What is said of one conflict. */
export interface Said {
  readonly heading: string;
  readonly body: readonly Run[];
  /** On the stamp; only where it is refused. */
  readonly stamp: readonly string[] | null;
  readonly waysOut: readonly WayOut[];
}

const NUMBERS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** `one frame`, `30 frames`. */
export function framesWords(frames: number): string {
  const number = NUMBERS[frames] ?? grouped(frames);
  return `${number} ${frames === 1 ? 'frame' : 'frames'}`;
}

const count = (words: string): Run => ({ count: words });

/** `R1·2939`, `R1·2900 to 2929`. */
function spanName(span: NonNullable<Conflict['span']>): string {
  const first = frameName(span.roll, span.in);
  return span.out - span.in > 1 ? `${first} to ${span.out - 1}` : first;
}

function listed(words: readonly string[]): string {
  if (words.length < 2) return words.join('');
  return `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;
}

/** What stands on the tag and the stamp: `1 frame short`, `shown twice`. */
export function tagOfConflict(conflict: Conflict): string {
  const { kind, frames } = conflict;
  const counted = `${grouped(frames)} ${frames === 1 ? 'frame' : 'frames'}`;
  if (kind === 'bite') return `${counted} short`;
  if (kind === 'doubled') return `${counted} twice`;
  if (kind === 'outside_roll') return `${counted} too many`;
  if (kind === 'short') return `${counted} too short`;
  const words: Record<string, string> = {
    effect: 'no such effect',
    base: 'will not hold',
    gauge: 'two gauges',
    protected: 'not to be cut',
    outside_take: 'out of its take',
  };
  return words[kind] ?? 'look again';
}

function stampOf(conflict: Conflict): string[] {
  const frames = framesWords(conflict.frames);
  const lines: Record<string, string[]> = {
    bite: [frames, 'short'],
    doubled: [frames, 'twice'],
    outside_roll: [frames, 'too many'],
    effect: ['not on', 'this bench'],
    base: ['will not', 'hold'],
    gauge: ['two', 'gauges'],
    protected: ['not to', 'be cut'],
  };
  return lines[conflict.kind] ?? ['refused'];
}

/** What is said of a conflict, in a film maker's words. */
export function wordsOfConflict(conflict: Conflict, cut: Cut, rolls: readonly RollHead[]): Said {
  const { heading, body } = sentences(conflict, cut, rolls);
  const refused = conflict.severity === 'refused';
  return {
    heading,
    body,
    stamp: refused ? stampOf(conflict) : null,
    waysOut: waysOut(conflict, cut),
  };
}

type Sentences = Pick<Said, 'heading' | 'body'>;

function sentences(conflict: Conflict, cut: Cut, rolls: readonly RollHead[]): Sentences {
  const join = ringOfConflict(conflict, cut);
  const at = conflict.positions[0] ?? 1;
  const roll = rolls.find((one) => one.roll === rollOf(conflict, cut));
  switch (conflict.kind) {
    case 'bite':
      return bite(conflict, cut);
    case 'doubled':
      return doubled(conflict, cut);
    case 'outside_roll':
      return outsideRoll(conflict, roll);
    case 'effect':
      return effect(at, cut);
    case 'base':
      return base(join, cut, rolls);
    case 'gauge':
      return gauge(join, cut);
    case 'protected':
      return isProtected(at, roll);
    case 'short':
      return short(conflict, cut);
    case 'outside_take':
      return outsideTake(at, cut);
    default:
      return { heading: `The strand check names ${conflict.kind} at ${at}.`, body: [] };
  }
}

function rollOf(conflict: Conflict, cut: Cut): string | undefined {
  const piece = cut.pieces[(conflict.positions[0] ?? 1) - 1];
  return conflict.span?.roll ?? piece?.roll ?? undefined;
}

/** Frames that a join eats and something else wants. */
function bite(conflict: Conflict, cut: Cut): Sentences {
  const { span } = conflict;
  if (!span) return { heading: 'A join eats frames that are wanted elsewhere.', body: [] };
  const lies = new FramesLie(cut);
  const wants = lies.of(span.roll, span.in);
  const eater = wants.find((want) => want.what !== 'shown');
  const join = eater?.join ?? ringOfConflict(conflict, cut);
  const kind = joinKindAt(cut, join);
  const name = joinName(join, cut.pieces.length);
  const are = span.out - span.in > 1 ? ' are wanted twice: ' : ' is wanted twice: ';
  const roles = wants.map((want) => {
    if (want.what !== 'shown') {
      return kind === 'cement'
        ? `as the tongue of ${joinName(want.join, cut.pieces.length)}`
        : `as what is eaten by ${joinName(want.join, cut.pieces.length)}`;
    }
    const piece = cut.pieces[want.piece];
    const number = want.piece + 1;
    if (isShot(piece) && piece.in === span.in) return `as the first frame of ${number}`;
    if (isShot(piece) && piece.out === span.out) return `as the last frame of ${number}`;
    return `in the middle of ${number}`;
  });
  // The eater is named first, as in the splicer it comes first.
  roles.sort((one, other) => Number(other.includes('|')) - Number(one.includes('|')));
  return {
    heading: `Strand check: with ${kind} join ${name} cannot be made.`,
    body: [count(spanName(span)), `${are}${listed(roles)}.`],
  };
}

function doubled(conflict: Conflict, cut: Cut): Sentences {
  const { span, positions, frames } = conflict;
  if (!span) return { heading: 'Frames are shown twice.', body: [] };
  const places = positions.map((at) => {
    const piece = cut.pieces[at - 1];
    const slate = piece ? slateOf(piece) : '';
    return slate ? `${at} (${slate})` : String(at);
  });
  const one = frames === 1;
  return {
    heading: `Strand check: ${one ? 'a frame is' : `${framesWords(frames)} are`} wanted in ${listed(positions.map(String))}.`,
    body: [
      count(spanName(span)),
      ` ${one ? 'stands' : 'stand'} in ${listed(places)}. The film has ${one ? 'it' : 'them'} once.`,
    ],
  };
}

function outsideRoll(conflict: Conflict, roll: RollHead | undefined): Sentences {
  const { span, frames, positions } = conflict;
  const named = span?.roll ?? 'the roll';
  const ends = roll ? [`${named} ends at `, count(frameName(named, roll.frames - 1))] : [];
  return {
    heading: `Strand check: ${named} does not have all that ${positions[0] ?? 'this piece'} asks for.`,
    body: [
      ...ends,
      roll && span ? `; ${framesWords(frames)} more are asked for, up to ` : '',
      ...(span ? [count(frameName(named, span.out - 1))] : []),
      '.',
    ].filter((run) => run !== ''),
  };
}

function effect(at: number, cut: Cut): Sentences {
  const word = cut.pieces[at - 1]?.effect ?? 'effect';
  const words: Record<string, string> = {
    freeze: 'a held frame',
    speed: 'another speed',
    reverse: 'film run backwards',
    fade: 'a fade',
  };
  return {
    heading: `Strand check: no bench can make ${words[word] ?? word} in ${at}.`,
    body: ['It would take a laboratory and a second strip of film. There is only this one.'],
  };
}

function base(join: number, cut: Cut, rolls: readonly RollHead[]): Sentences {
  const kind = joinKindAt(cut, join);
  const sides = [cut.pieces[join], cut.pieces[join + 1]].flatMap((piece) => piece?.roll ?? []);
  const hard = [...new Set(sides)].filter((name) =>
    rolls.some((roll) => roll.roll === name && roll.base === 'polyester'),
  );
  const named = hard.length > 0 ? `${listed(hard)} is polyester.` : 'One side is polyester.';
  return {
    heading: `Strand check: ${kind} does not hold at ${joinName(join, cut.pieces.length)}.`,
    body: [`${named} It takes tape only.`],
  };
}

function gauge(join: number, cut: Cut): Sentences {
  return {
    heading: `Strand check: two gauges meet at ${joinName(join, cut.pieces.length)}.`,
    body: ['Their holes do not match, so no splicer can join them.'],
  };
}

function isProtected(at: number, roll: RollHead | undefined): Sentences {
  const named = roll?.roll ?? 'Its roll';
  const why = roll?.fit === 'never-cut' ? 'is never to be cut' : 'may only be scanned';
  return {
    heading: `Strand check: ${at} is on a roll that may not be cut.`,
    body: [`${named} ${why}, as Rolls says. Take the action from another roll, or lift the piece.`],
  };
}

function short(conflict: Conflict, cut: Cut): Sentences {
  const at = conflict.positions[0] ?? 1;
  const last = (conflict.positions.at(-1) ?? at) - 1;
  const frames = cut.pieces
    .slice(at - 1, last + 1)
    .reduce((sum, piece) => sum + (piece.frames ?? 0), 0);
  const rows = [at - 2, last].map((join) => joinRow(cut, joinKindAt(cut, join)));
  const least = Math.max(...rows.map((row) => row.shortest));
  return {
    heading: `${at} may be too short to hold between its joins.`,
    body: [
      'It has ',
      count(String(frames)),
      ` ${frames === 1 ? 'frame' : 'frames'}; with these joins at least `,
      count(String(least)),
      ' are wanted.',
    ],
  };
}

function outsideTake(at: number, cut: Cut): Sentences {
  const piece = cut.pieces[at - 1];
  if (!isShot(piece)) return { heading: `${at} reaches out of its take.`, body: [] };
  const ends = piece.take
    ? `${slateOf(piece) || 'The take'} runs from ${piece.take.in} to ${piece.take.out - 1}.`
    : 'More than one take lies in it, or fog.';
  return {
    heading: `${at} reaches out of its take.`,
    body: [count(`${piece.roll}·${piece.in} to ${piece.out - 1}`), `. ${ends}`],
  };
}

/** `R1: used 747, eaten 7, left 2,846, together 3,600.` as parts of a sum. */
export function rollSums(check: Check): { roll: string; sum: string; proved: boolean }[] {
  return check.rolls.map((roll) => ({
    roll: roll.roll,
    sum: `${grouped(roll.used)} used + ${grouped(roll.eaten)} eaten + ${grouped(roll.left)} left = ${grouped(roll.frames)}`,
    proved: roll.proved,
  }));
}
