// @vitest-environment node
import { beforeEach, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import type { FilmChange } from '$lib/api/wire';
import { NOT_INSPECTED } from '../../stories/not_inspected';
import { edgeSentence, hasEdgeNumbers } from './edge_numbers';
import { InHand } from './in_hand.svelte';
import { logOf } from './pretend_log';

let sent: FilmChange[];
let refuse: Refused | null;
let hand: InHand;
const log = {
  ...logOf([], 3600, { revision: 4 }),
  inspection: {
    ...NOT_INSPECTED,
    accession: 'A 12',
    lies: 'tails',
    condition: { ...NOT_INSPECTED.condition, fading: 'turned red', vinegar: 'slight' },
  },
};

beforeEach(() => {
  [sent, refuse] = [[], null];
  const desk = {
    change: (change: FilmChange) => {
      sent.push(change);
      return refuse
        ? Promise.reject(refuse)
        : Promise.resolve({ revision: 5, already: false, words: '' });
    },
  };
  hand = new InHand(desk, () => log, 1402);
});

it('begins with what is known, and keeps all of the state at once', async () => {
  expect([hand.accession, hand.lies, hand.vinegar]).toEqual(['A 12', 'tails', 'slight']);
  hand.condition.scratches = 'base';
  hand.vinegar = 'strong';
  expect(await hand.keepState()).toBe(true);
  expect(sent).toEqual([
    {
      film_change: 'inspect_roll',
      roll: 'R1',
      accession: 'A 12',
      lies: 'tails',
      condition: {
        ...NOT_INSPECTED.condition,
        fading: 'turned red',
        vinegar: 'strong',
        scratches: 'base',
      },
    },
  ]);
});

it('measures are kept as they are typed, and taken away when they are emptied', async () => {
  hand.hundred = ' 377,6 ';
  await hand.keepHundred();
  hand.hundred = '';
  await hand.keepHundred();
  [hand.across, hand.hub] = ['70', '33'];
  await hand.keepWound();
  [hand.across, hand.hub] = ['', ' '];
  await hand.keepWound();
  expect(sent).toEqual([
    { film_change: 'measure_hundred', roll: 'R1', mm: '377,6' },
    { film_change: 'measure_hundred', roll: 'R1', mm: null },
    {
      film_change: 'measure_wound',
      roll: 'R1',
      wound: { across_mm: '70', hub_mm: '33', thickness_mm: null },
    },
    { film_change: 'measure_wound', roll: 'R1', wound: null },
  ]);
});

it('a join is found at the frame one is at; one without a frame is asked for', async () => {
  [hand.joinKind, hand.joinNote] = ['tape', 'old tape'];
  expect(await hand.keepJoin()).toBe(true);
  expect(hand.joinFrame).toBe('');
  expect(await hand.keepJoin()).toBe(false);
  expect(hand.problem?.of).toBe('join');
  await hand.joinGone(1402);
  expect(hand.problem).toBeNull();
  expect(sent).toEqual([
    { film_change: 'join_found', roll: 'R1', frame: 1402, kind: 'tape', note: 'old tape' },
    { film_change: 'join_gone', roll: 'R1', frame: 1402 },
  ]);
});

it('what is refused is said beside its part', async () => {
  const problem = { code: 'x', message: 'no length', hint: 'such as 377.6', details: null };
  refuse = new Refused(problem, 422);
  expect(await hand.keepHundred()).toBe(false);
  expect(hand.problem?.of).toBe('hundred');
  expect(hand.problem?.words).toContain('No length');
});

it('a number on the edge is written down with the step that the user counted', async () => {
  hand.edgeFrame = '1,206';
  hand.edgeNumber = '4127';
  expect(await hand.keepEdge()).toBe(true);
  hand.edgeFrame = '1366';
  hand.edgeNumber = '4135';
  hand.edgeStep = 'half a foot';
  expect(await hand.keepEdge()).toBe(false);
  expect(hand.problem?.words).toContain('number of frames');
  hand.edgeStep = '20';
  expect(await hand.keepEdge()).toBe(true);
  await hand.edgeGone(1206);
  expect(sent).toEqual([
    { film_change: 'edge_number_read', roll: 'R1', frame: 1206, number: '4127', step: null },
    { film_change: 'edge_number_read', roll: 'R1', frame: 1366, number: '4135', step: 20 },
    { film_change: 'edge_number_gone', roll: 'R1', frame: 1206 },
  ]);
});

it('only film that carries numbers is asked for them', () => {
  expect(['16', '35', 'super8', 'regular8'].map((gauge) => hasEdgeNumbers({ gauge }))).toEqual([
    true,
    true,
    false,
    false,
  ]);
  expect(edgeSentence({ step: 20, read: [{ frame: 1, number: '1' }], follow: 7 })).toBe(
    'One every 20 frames; 7 more follow between those read.',
  );
});
