// The keys of the Script room.
import type { Binding } from '$lib/keys/binding';
import type { ScriptRoom } from './script_room.svelte';

export interface ScriptHand {
  /** Opens the chosen action to be written. */
  write(): void;
  /** Opens what the chosen line stands for. */
  open(): boolean;
  /** Keeps what was chosen in sight. */
  show(): void;
}

export function scriptKeys(room: ScriptRoom, hand: ScriptHand): Binding[] {
  const step = (by: number) => () => {
    room.step(by);
    hand.show();
  };
  const aside = (by: number) => () => {
    room.aside(by);
    hand.show();
  };
  const shot = room.view === 'shot';
  return [
    { keys: ['ArrowUp'], words: 'action before, after', held: true, act: step(-1) },
    { keys: ['ArrowDown'], words: 'action before, after', held: true, act: step(1) },
    {
      keys: ['PageUp'],
      words: 'five actions before, after',
      line: false,
      held: true,
      act: step(-5),
    },
    {
      keys: ['PageDown'],
      words: 'five actions before, after',
      line: false,
      held: true,
      act: step(5),
    },
    {
      keys: ['ArrowLeft'],
      words: shot ? 'take before, after' : 'setup before, after',
      act: aside(-1),
    },
    {
      keys: ['ArrowRight'],
      words: shot ? 'take before, after' : 'setup before, after',
      act: aside(1),
    },
    {
      keys: ['Enter'],
      words: room.line === null ? 'write the action' : shot ? 'open the take' : 'open the setup',
      act: () => (room.line === null ? hand.write() : hand.open()),
    },
    {
      keys: ['Space'],
      words: shot ? 'circle it' : 'on camera, off, nothing',
      act: () => {
        if (!room.chosenLine) return false;
        void room.pen.mark();
        return true;
      },
    },
    {
      keys: ['Insert'],
      words: 'new action behind it',
      act: () => void room.writer.insert(),
    },
    {
      keys: ['Tab'],
      words: 'next question',
      act: () => {
        const found = room.nextQuestion();
        if (found) hand.show();
        return found;
      },
    },
    {
      keys: ['Escape'],
      words: 'put back',
      line: false,
      act: () => {
        if (!room.pen.drawing && room.line === null) return false;
        room.pen.putBack();
        room.line = null;
        return true;
      },
    },
  ];
}
