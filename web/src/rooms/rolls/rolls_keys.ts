// The keys of the room: what each does at the frame one is at.
import type { Binding } from '$lib/keys/binding';
import type { Look } from './rolls.svelte';
import type { StepUnit } from './steps';

/** What the keys of the room do. */
export interface RollsActs {
  step(unit: StepUnit, steps: number): void;
  end(end: 'first' | 'last'): void;
  neighbour(side: 'before' | 'after'): void;
  otherRoll(side: 'before' | 'after'): void;
  runOrStop(): void;
  breakHere(): void;
  mendBreak(): void;
  fill(): void;
  layIn(): void;
  note(): void;
  /** The roll runs through in the Screening room, where notes are written. */
  watch(): void;
  /** To the next break that nobody has looked at. */
  nextToLook(): void;
  /** The break that is looked at begins at the frame one is at. */
  moveBreak(): void;
  nearer(): void;
  /** Back to the whole roll; false where it is shown already. */
  back(): boolean;
}

const WAYS = [
  { keys: ['ArrowDown'], steps: 1 },
  { keys: ['ArrowUp'], steps: -1 },
] as const;

const TAKE = 'the take';
const BREAKS = 'the breaks';

function steps(acts: RollsActs): Binding[] {
  const step = (
    unit: StepUnit,
    words: string,
    more: Partial<Binding>,
    keys?: readonly [string, string],
  ) =>
    WAYS.map(
      ({ keys: arrows, steps: count }, nth): Binding => ({
        keys: keys ? [keys[nth] ?? ''] : arrows,
        words: `${words} on, back`,
        held: true,
        act: () => acts.step(unit, count),
        ...more,
      }),
    );
  return [
    ...step('frame', 'one frame', { line: 'one frame' }),
    ...step('ten', 'ten frames', { with: 'shift', line: false }),
    ...step('second', 'one second', { with: 'ctrl', line: false }),
    ...step('foot', 'one foot', { line: false }, ['PageDown', 'PageUp']),
  ];
}

/** What the keys mean where breaks are looked at, and elsewhere. */
function wordsAt(look: Look) {
  return look === 'breaks'
    ? {
        sides: 'the break before, after',
        line: 'break before, break after',
        enter: 'let the break stand, and go to the next',
        enterLine: 'let it stand',
        mend: 'make one take of the two',
        under: BREAKS,
      }
    : {
        sides: 'the take before, after',
        line: 'take before, take after',
        enter: 'fill the card of the take',
        enterLine: 'fill the card',
        mend: 'mend the break at the first frame of a take',
        under: TAKE,
      };
}

/** The keys that walk through the breaks and decide on them. */
function deciding(acts: RollsActs, atBreaks: boolean): Binding[] {
  return [
    {
      keys: ['F4'],
      words: 'the next break that nobody has looked at',
      under: BREAKS,
      line: atBreaks ? 'next to look at' : false,
      act: () => acts.nextToLook(),
    },
    {
      keys: ['F6'],
      words: 'move the break to this frame',
      under: BREAKS,
      line: atBreaks ? 'move it here' : false,
      act: () => (atBreaks ? acts.moveBreak() : false),
    },
  ];
}

export function rollsBindings(acts: RollsActs, look: Look = 'whole'): Binding[] {
  const words = wordsAt(look);
  const atBreaks = look === 'breaks';
  // Where breaks are looked at, what decides on them stands first in the key line.
  const enter: Binding = {
    keys: ['Enter'],
    words: words.enter,
    under: words.under,
    line: words.enterLine,
    act: () => acts.fill(),
  };
  return [
    ...steps(acts),
    {
      keys: ['ArrowLeft'],
      words: words.sides,
      line: words.line,
      held: true,
      act: () => acts.neighbour('before'),
    },
    {
      keys: ['ArrowRight'],
      words: words.sides,
      line: words.line,
      held: true,
      act: () => acts.neighbour('after'),
    },
    ...(atBreaks ? [enter, ...deciding(acts, atBreaks)] : []),
    {
      keys: ['ArrowLeft'],
      with: 'ctrl',
      words: 'the roll before, after',
      line: false,
      act: () => acts.otherRoll('before'),
    },
    {
      keys: ['ArrowRight'],
      with: 'ctrl',
      words: 'the roll before, after',
      line: false,
      act: () => acts.otherRoll('after'),
    },
    {
      keys: ['Home'],
      words: 'first, last frame of the take',
      line: false,
      act: () => acts.end('first'),
    },
    {
      keys: ['End'],
      words: 'first, last frame of the take',
      line: false,
      act: () => acts.end('last'),
    },
    {
      keys: ['Space'],
      words: 'run the roll, and stop it',
      line: 'run',
      act: () => acts.runOrStop(),
    },
    {
      keys: ['Space'],
      with: 'shift',
      words: 'watch the roll through, writing notes',
      line: false,
      act: () => acts.watch(),
    },
    {
      keys: ['Insert', '/'],
      words: 'break here: a take begins',
      under: TAKE,
      line: 'break here',
      act: () => acts.breakHere(),
    },
    {
      keys: ['Delete'],
      words: words.mend,
      under: words.under,
      line: atBreaks ? 'one take of two' : false,
      act: () => acts.mendBreak(),
    },
    ...(atBreaks ? [] : [enter, ...deciding(acts, atBreaks)]),
    {
      keys: ['Enter'],
      with: 'shift',
      words: 'lay the take into the cut',
      under: TAKE,
      line: false,
      act: () => acts.layIn(),
    },
    {
      keys: ['F2', '*'],
      words: 'a note on this frame',
      under: TAKE,
      line: 'note',
      act: () => acts.note(),
    },
    { keys: ['+'], words: 'look at the film near by', line: false, act: () => acts.nearer() },
    {
      keys: ['-', 'Escape'],
      words: 'back to the whole roll',
      line: false,
      act: () => acts.back(),
    },
  ];
}
