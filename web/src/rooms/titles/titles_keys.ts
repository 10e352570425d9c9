// The keys of the Titles room: film runs down, titles lie beside each other.
import type { Binding } from '$lib/keys/binding';
import type { Speed } from '$lib/film/speed';
import type { TitlesRoom } from './titles_room.svelte';

export interface TitlesHand {
  /** Gives the pen to the words. */
  write(): void;
  /** Gives the keys back to the card. */
  look(): void;
}

export function titlesKeys(
  room: TitlesRoom,
  hand: TitlesHand,
  speed: Speed,
  perFoot: number,
): Binding[] {
  const frames = (by: number) => () => room.run.step(by);
  const beside = (by: number) => () => void room.step(by);
  const under = 'the list';
  return [
    {
      keys: ['Space'],
      words: room.run.running ? 'stop' : 'run the card',
      act: () => {
        if (room.run.running || room.run.threading) room.run.stop();
        else void room.run.run(speed);
      },
    },
    { keys: ['ArrowUp'], words: 'one frame back, on', held: true, act: frames(-1) },
    { keys: ['ArrowDown'], words: 'one frame back, on', held: true, act: frames(1) },
    {
      keys: ['ArrowUp'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: frames(-10),
    },
    {
      keys: ['ArrowDown'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: frames(10),
    },
    { keys: ['PageUp'], words: 'one foot back, on', line: false, act: frames(-perFoot) },
    { keys: ['PageDown'], words: 'one foot back, on', line: false, act: frames(perFoot) },
    { keys: ['Home'], words: 'first frame, last', line: false, act: () => room.run.go(0) },
    {
      keys: ['End'],
      words: 'first frame, last',
      line: false,
      act: () => room.run.go(room.run.frames - 1),
    },
    { keys: ['ArrowLeft'], words: 'title before, after', act: beside(-1) },
    { keys: ['ArrowRight'], words: 'title before, after', act: beside(1) },
    { keys: ['Enter'], words: 'write its words', act: () => hand.write() },
    {
      keys: ['Insert'],
      words: 'new title',
      under,
      act: () => void room.add().then((done) => done && hand.write()),
    },
    {
      keys: ['Delete'],
      words: 'take it out',
      under,
      act: () => void room.remove().then(() => hand.look()),
    },
    {
      keys: ['ArrowUp'],
      with: 'ctrl',
      words: 'move it up, down',
      under,
      line: false,
      act: () => void room.move(-1),
    },
    {
      keys: ['ArrowDown'],
      with: 'ctrl',
      words: 'move it up, down',
      under,
      line: false,
      act: () => void room.move(1),
    },
    {
      keys: ['Tab'],
      words: 'next question',
      line: false,
      act: () => room.nextQuestion(),
    },
    {
      keys: ['Escape'],
      words: 'the card with all of its lettering',
      line: false,
      act: () => {
        hand.look();
        if (room.run.at === null && !room.run.threading) return;
        room.run.whole();
      },
    },
  ];
}
