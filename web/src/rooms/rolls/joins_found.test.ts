// @vitest-environment node
import { expect, it } from 'vitest';
import { NOT_INSPECTED } from '../../stories/not_inspected';
import { changesOf } from './changes_of_roll';
import { joinSaid, joinSentence, joinsOf, joinsOn, joinStripMarks } from './joins_found';
import { logOf, takeOf } from './pretend_log';
import { reasonsOf } from './reasons_of_change';

const footage = { feet: 0, frames: 0 };
const join = (frame: number, kind: string, note = '') => ({ frame, kind, note, footage });
const log = {
  ...logOf(
    [
      takeOf(0, 100),
      takeOf(100, 200, { begins: 'join' }),
      takeOf(200, 400, { begins: 'camera_stop' }),
    ],
    400,
  ),
  inspection: {
    ...NOT_INSPECTED,
    joins: [
      join(100, 'tape'),
      join(150, 'not-known'),
      join(200, 'cement', 'lifts at one edge'),
      join(390, 'weld'),
    ],
  },
};

it('a join belongs to the film behind it', () => {
  const frames = (first: number, thrown: number) =>
    joinsOn(log, { first, thrown }).map((one) => one.frame);
  expect([frames(0, 100), frames(100, 200), frames(200, 400)]).toEqual([
    [],
    [100, 150],
    [200, 390],
  ]);
  expect(joinStripMarks(joinsOn(log, { first: 100, thrown: 200 }), 100, 25)).toEqual([
    { at: 0, kind: 'tape' },
    { at: 2, kind: 'not-known' },
  ]);
});

it('is said by its kind, and where nobody knows it, that', () => {
  const [tape, unknown] = joinsOf(log);
  expect(joinSentence(tape!)).toBe(
    'A tape join lies between 99 and 100, found with the film in the hand.',
  );
  expect(joinSentence(unknown!)).toContain('nobody knows of which kind');
  expect(joinSaid(log, 100)).toBe(', first frame after a tape join');
  expect([joinSaid(log, 99), joinSaid(null, 100)]).toEqual(['', '']);
});

it('stands among the changes of the film: with the break it lies at, else on its own', () => {
  const changes = changesOf(log);
  expect(changes.map((one) => [one.at, one.words, one.state])).toEqual([
    [100, 'tape join', 'to look at'],
    [150, 'join', 'told'],
    [200, 'camera stop, cement join', 'to look at'],
    [390, 'weld join', 'told'],
  ]);
  expect(reasonsOf(changes[2]!, log)).toEqual([
    'A cement join lies between 199 and 200, found with the film in the hand.',
    'Written beside it: lifts at one edge',
  ]);
});
