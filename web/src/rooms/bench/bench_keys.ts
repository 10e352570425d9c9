// The keys of the bench.
import type { Binding } from '$lib/keys/binding';
import type { BenchRoom } from './bench_room.svelte';

interface Ways {
  readonly tick: () => void;
  readonly back: () => void;
  readonly look: (by: 1 | -1) => boolean;
  readonly tell: () => void;
  readonly home: () => void;
}

export function benchKeys(room: BenchRoom, ways: Ways): Binding[] {
  const tick = room.next?.tick ?? 'done';
  return [
    {
      keys: ['Enter'],
      words: 'the next act is done, as the green button says',
      line:
        room.ahead === 0 ? `${tick.charAt(0).toLowerCase()}${tick.slice(1)}` : 'to the next act',
      act: ways.tick,
    },
    {
      keys: ['Backspace'],
      words: 'one back: the last line is struck out',
      line: 'one back',
      act: ways.back,
    },
    {
      keys: ['ArrowDown'],
      words: 'look ahead at what comes, without doing it',
      line: 'look ahead',
      held: true,
      act: () => ways.look(1),
    },
    {
      keys: ['ArrowUp'],
      words: 'look back at what was done',
      line: 'look back',
      held: true,
      act: () => ways.look(-1),
    },
    { keys: ['Escape'], words: 'back to the next act', line: false, act: ways.home },
    { keys: ['F8'], words: 'something else happened', line: 'something else', act: ways.tell },
    // Tab is the browser's own way; it stands here so that one knows.
    { keys: ['Tab'], words: 'next button', act: () => false },
  ];
}
