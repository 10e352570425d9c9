// The keys of the Screening room.
import type { Binding } from '$lib/keys/binding';
import type { ScreeningRoom } from './screening.svelte';

interface Ways {
  readonly notes: () => void;
  readonly side: () => void;
  readonly pace: () => void;
  readonly strip: () => void;
  readonly whole: () => void;
  readonly reel: () => void;
  readonly hall: () => void;
  readonly light: () => void;
  readonly finish: () => void;
}

/** @param foot frames a foot of the film's gauge. */
export function screeningKeys(room: ScreeningRoom, foot: number, ways: Ways): Binding[] {
  const { projector } = room.projection;
  const step = (keys: string[], frames: number, words: string, more: Partial<Binding> = {}) => ({
    keys,
    words,
    held: true,
    act: () => projector.step(frames),
    ...more,
  });
  const running = room.runs;
  return [
    {
      keys: ['Space'],
      words: running ? 'stop' : 'run',
      act: () => room.runOn(),
    },
    step(['ArrowDown'], 1, 'one frame on, back', { line: 'one frame' }),
    step(['ArrowUp'], -1, 'one frame on, back', { line: 'one frame' }),
    step(['ArrowDown'], 10, 'ten frames on, back', { with: 'shift', line: false }),
    step(['ArrowUp'], -10, 'ten frames on, back', { with: 'shift', line: false }),
    step(['PageDown'], foot, 'one foot on, back', { line: 'one foot' }),
    step(['PageUp'], -foot, 'one foot on, back', { line: 'one foot' }),
    {
      keys: ['Home'],
      words: 'to the head, the tail',
      line: 'head, tail',
      act: () => projector.seek(0),
    },
    {
      keys: ['End'],
      words: 'to the head, the tail',
      line: 'head, tail',
      act: () => projector.seek(projector.plan.length),
    },
    { keys: ['Enter'], words: 'note on this frame', act: () => room.hand.begin() },
    { keys: ['F8'], words: 'notes beside the screen, or not', line: 'notes', act: ways.notes },
    { keys: ['F2'], words: 'notes side by side', line: 'side by side', act: ways.side },
    ...(room.threaded.kind === 'cut'
      ? [
          { keys: ['F4'], words: 'the pace, as a picture', line: 'pace', act: ways.pace },
          {
            keys: ['F7'],
            words: 'as the finished strip will run, or clean',
            line: 'as the strip runs',
            act: ways.strip,
          },
          {
            keys: ['F4'],
            with: 'shift' as const,
            words: 'the reel: what goes on it, and its labels',
            line: false as const,
            act: ways.reel,
          },
          {
            keys: ['F7'],
            with: 'shift' as const,
            words: 'the light of the shots, in points',
            line: false as const,
            act: ways.light,
          },
          {
            keys: ['F8'],
            with: 'shift' as const,
            words: 'the digital finish',
            line: false as const,
            act: ways.finish,
          },
        ]
      : []),
    { keys: ['F9'], words: 'the whole screen, or not', line: 'whole screen', act: ways.whole },
    {
      keys: ['F9'],
      with: 'shift',
      words: 'the throw: projector, picture, last row',
      line: false,
      act: ways.hall,
    },
  ];
}
