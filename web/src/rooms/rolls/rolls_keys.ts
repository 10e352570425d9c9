// The keys of the room: what each does at the frame one is at.
import type { Binding } from '$lib/keys/binding';
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
  nearer(): void;
  /** Back to the whole roll; false where it is shown already. */
  back(): boolean;
}

const WAYS = [
  { keys: ['ArrowDown'], steps: 1 },
  { keys: ['ArrowUp'], steps: -1 },
] as const;

const TAKE = 'the take';

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

export function rollsBindings(acts: RollsActs): Binding[] {
  return [
    ...steps(acts),
    {
      keys: ['ArrowLeft'],
      words: 'the take before, after',
      line: 'take before, take after',
      held: true,
      act: () => acts.neighbour('before'),
    },
    {
      keys: ['ArrowRight'],
      words: 'the take before, after',
      line: 'take before, take after',
      held: true,
      act: () => acts.neighbour('after'),
    },
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
      keys: ['Insert', '/'],
      words: 'break here: a take begins',
      under: TAKE,
      line: 'break here',
      act: () => acts.breakHere(),
    },
    {
      keys: ['Delete'],
      words: 'mend the break at the first frame of a take',
      under: TAKE,
      line: false,
      act: () => acts.mendBreak(),
    },
    {
      keys: ['Enter'],
      words: 'fill the card of the take',
      under: TAKE,
      line: 'fill the card',
      act: () => acts.fill(),
    },
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
