// What each key does in the cutting room.
import type { Binding } from '$lib/keys/binding';

/** What the keys can ask of the room. */
export interface RoomActs {
  nudge(frames: number): void;
  toTakeEnd(end: 'first' | 'last'): void;
  chooseSide(side: 'out' | 'in'): void;
  /** False at the ends, where Tab goes on through the page. */
  walk(by: 1 | -1): boolean;
  toEnd(end: 'first' | 'last'): void;
  runOrStop(): void;
  /** Runs the join as it was, then as it is on trial. */
  runBoth(): void;
  /** Seeks a cut on the action. */
  cutOnAction(): void;
  /** False where nothing is on trial. */
  keep(): boolean;
  putBack(): boolean;
  layIn(): void;
  lift(): void;
  move(by: 1 | -1): void;
  /** Holds one piece more, up or down. */
  hold(by: 1 | -1): void;
  another(): void;
  divide(): void;
  writePiece(): void;
  undo(): void;
  redo(): void;
  nextPart(by: 1 | -1): void;
}

const PIECE = 'the chosen piece';
const PARTS = 'sheet, join, what is said of it, whole film';

/** Of the keys of the room those that have something to do while nothing is laid in. */
export function keysOfEmptySheet(keys: readonly Binding[]): Binding[] {
  return keys.filter(
    ({ keys: [key], with: held }) =>
      (key === 'Insert' && held === undefined) || key === 'F6' || key === 'z',
  );
}

export function roomKeys(acts: RoomActs, framesPerFoot: number): Binding[] {
  const nudge = (frames: number) => () => acts.nudge(frames);
  return [
    {
      keys: ['ArrowUp'],
      words: 'one frame back, on',
      line: 'one frame',
      held: true,
      act: nudge(-1),
    },
    {
      keys: ['ArrowDown'],
      words: 'one frame back, on',
      line: 'one frame',
      held: true,
      act: nudge(1),
    },
    {
      keys: ['ArrowLeft'],
      words: 'the outgoing, the incoming side',
      line: 'out side, in side',
      act: () => acts.chooseSide('out'),
    },
    {
      keys: ['ArrowRight'],
      words: 'the outgoing, the incoming side',
      line: 'out side, in side',
      act: () => acts.chooseSide('in'),
    },
    { keys: ['Tab'], words: 'next join', act: () => acts.walk(1) },
    {
      keys: ['Space'],
      words: 'run across the join, and stop',
      line: 'run across',
      act: () => acts.runOrStop(),
    },
    {
      keys: ['Space'],
      with: 'shift',
      words: 'run it as it was, then as it is on trial',
      line: false,
      act: () => acts.runBoth(),
    },
    {
      keys: ['F4'],
      words: 'cut on the action',
      line: false,
      act: () => acts.cutOnAction(),
    },
    { keys: ['Enter'], words: 'keep what is on trial', line: 'keep', act: () => acts.keep() },
    {
      keys: ['Escape'],
      words: 'put back what is on trial',
      line: 'put back',
      act: () => acts.putBack(),
    },
    {
      keys: ['Insert', '/'],
      words: 'lay in after the chosen piece',
      under: PIECE,
      line: 'lay in',
      act: () => acts.layIn(),
    },
    {
      keys: ['Delete'],
      words: 'lift the chosen piece, or all that are held',
      under: PIECE,
      line: 'lift',
      act: () => acts.lift(),
    },
    {
      keys: ['ArrowUp'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: nudge(-10),
    },
    {
      keys: ['ArrowDown'],
      with: 'shift',
      words: 'ten frames back, on',
      line: false,
      held: true,
      act: nudge(10),
    },
    {
      keys: ['PageUp'],
      words: 'one foot back, on',
      line: false,
      held: true,
      act: nudge(-framesPerFoot),
    },
    {
      keys: ['PageDown'],
      words: 'one foot back, on',
      line: false,
      held: true,
      act: nudge(framesPerFoot),
    },
    {
      keys: ['Home'],
      words: 'first, last frame of the take',
      line: false,
      act: () => acts.toTakeEnd('first'),
    },
    {
      keys: ['End'],
      words: 'first, last frame of the take',
      line: false,
      act: () => acts.toTakeEnd('last'),
    },
    {
      keys: ['Tab'],
      with: 'shift',
      words: 'the join before',
      line: false,
      act: () => acts.walk(-1),
    },
    {
      keys: ['Home'],
      with: 'ctrl',
      words: 'first, last join',
      line: false,
      act: () => acts.toEnd('first'),
    },
    {
      keys: ['End'],
      with: 'ctrl',
      words: 'first, last join',
      line: false,
      act: () => acts.toEnd('last'),
    },
    {
      keys: ['ArrowUp'],
      with: 'ctrl',
      words: 'move what is held a place up, down',
      under: PIECE,
      line: false,
      act: () => acts.move(-1),
    },
    {
      keys: ['ArrowDown'],
      with: 'ctrl',
      words: 'move what is held a place up, down',
      under: PIECE,
      line: false,
      act: () => acts.move(1),
    },
    {
      keys: ['ArrowUp'],
      with: 'ctrl+shift',
      words: 'hold the piece above, below as well',
      under: PIECE,
      line: false,
      held: true,
      act: () => acts.hold(-1),
    },
    {
      keys: ['ArrowDown'],
      with: 'ctrl+shift',
      words: 'hold the piece above, below as well',
      under: PIECE,
      line: false,
      held: true,
      act: () => acts.hold(1),
    },
    {
      keys: ['Insert'],
      with: 'shift',
      words: 'another take in its place',
      under: PIECE,
      line: false,
      act: () => acts.another(),
    },
    {
      keys: ['Insert'],
      with: 'ctrl',
      words: 'divide it',
      under: PIECE,
      line: false,
      act: () => acts.divide(),
    },
    {
      keys: ['F2', '*'],
      words: 'write frames, join and note of the piece',
      under: PIECE,
      line: false,
      act: () => acts.writePiece(),
    },
    {
      keys: ['z'],
      with: 'ctrl',
      words: 'take the last change back',
      line: false,
      act: () => acts.undo(),
    },
    {
      keys: ['z'],
      with: 'ctrl+shift',
      words: 'make it again',
      line: false,
      act: () => acts.redo(),
    },
    {
      keys: ['F6'],
      words: 'next part of the room',
      under: PARTS,
      line: false,
      act: () => acts.nextPart(1),
    },
    {
      keys: ['F6'],
      with: 'shift',
      words: 'the part before',
      under: PARTS,
      line: false,
      act: () => acts.nextPart(-1),
    },
  ];
}
