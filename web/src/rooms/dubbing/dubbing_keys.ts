// The keys of the Dubbing room: film runs down, columns lie beside each other.
import type { Binding } from '$lib/keys/binding';
import type { DubbingRoom } from './dubbing_room.svelte';

export interface DubbingHand {
  readonly runs: boolean;
  runOrStop(): void;
  /** Opens the run beside a real projector. */
  runTheMix?(): void;
  stop(): void;
}

export function dubbingKeys(room: DubbingRoom, hand: DubbingHand, perFoot: number): Binding[] {
  const step = (by: number) => () => {
    hand.stop();
    room.go(room.at + by);
  };
  const to = (frame: number) => () => {
    hand.stop();
    room.go(frame);
  };
  const under = 'the chosen cue';
  const hasCue = (act: () => void) => () => {
    if (!room.cue) return false;
    act();
    return true;
  };
  return [
    { keys: ['Space'], words: hand.runs ? 'stop' : 'start', act: () => hand.runOrStop() },
    {
      keys: ['ArrowUp'],
      words: 'one frame back, on',
      line: 'one frame',
      held: true,
      act: step(-1),
    },
    {
      keys: ['ArrowDown'],
      words: 'one frame back, on',
      line: 'one frame',
      held: true,
      act: step(1),
    },
    {
      keys: ['ArrowUp'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: step(-10),
    },
    {
      keys: ['ArrowDown'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: step(10),
    },
    { keys: ['PageUp'], words: 'one foot back, on', line: false, held: true, act: step(-perFoot) },
    { keys: ['PageDown'], words: 'one foot back, on', line: false, held: true, act: step(perFoot) },
    { keys: ['Home'], words: 'head of the film, tail', line: false, act: to(room.first) },
    { keys: ['End'], words: 'head of the film, tail', line: false, act: to(room.last) },
    {
      keys: ['ArrowLeft'],
      words: 'column before, after',
      line: 'column',
      act: () => room.beside(-1),
    },
    {
      keys: ['ArrowRight'],
      words: 'column before, after',
      line: 'column',
      act: () => room.beside(1),
    },
    { keys: ['Tab'], words: 'next cue', act: () => room.nextCue() },
    {
      keys: ['Enter'],
      words: 'put orphans where it is proposed',
      line: false,
      act: () => room.answerFirst(),
    },
    { keys: ['Insert'], words: 'new cue', act: () => void room.addCue() },
    {
      keys: ['F9'],
      words: 'run the mix beside the projector',
      line: 'run the mix',
      act: () => hand.runTheMix?.(),
    },
    {
      keys: ['+', '='],
      words: 'nearer, farther',
      line: false,
      act: () => room.zoom(1),
    },
    { keys: ['-'], words: 'nearer, farther', line: false, act: () => room.zoom(-1) },
    {
      keys: ['ArrowUp'],
      with: 'ctrl',
      words: 'a frame sooner, later',
      under,
      line: false,
      act: hasCue(() => void room.nudge(-1)),
    },
    {
      keys: ['ArrowDown'],
      with: 'ctrl',
      words: 'a frame sooner, later',
      under,
      line: false,
      act: hasCue(() => void room.nudge(1)),
    },
    {
      keys: ['ArrowLeft'],
      with: 'ctrl',
      words: 'half a decibel softer, louder',
      under,
      line: false,
      act: hasCue(() => void room.louder(-5)),
    },
    {
      keys: ['ArrowRight'],
      with: 'ctrl',
      words: 'half a decibel softer, louder',
      under,
      line: false,
      act: hasCue(() => void room.louder(5)),
    },
    {
      keys: ['Delete'],
      words: 'take it out',
      under,
      line: false,
      act: () => {
        if (!room.cue) return false;
        void room.remove(room.cue.id);
        return true;
      },
    },
    {
      keys: ['Escape'],
      words: 'stop, let the cue go',
      line: false,
      act: () => {
        if (hand.runs) hand.stop();
        else if (room.chosen !== null) {
          room.choose(null);
          room.card = 'sounds';
        } else return false;
        return true;
      },
    },
  ];
}
