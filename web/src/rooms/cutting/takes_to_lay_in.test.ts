import { describe, expect, it } from 'vitest';
import type { RollLog, Take } from '$lib/api/wire';
import type { Shot } from './pieces';
import { NOT_INSPECTED } from '../../stories/not_inspected';
import { roll } from './boat_v1';
import {
  foundTakes,
  sameStretch,
  slateOfTake,
  spanAsked,
  takesInstead,
  takesToLayIn,
} from './takes_to_lay_in';

const take = (first: number, out: number, of: Partial<Take>): Take => ({
  in: first,
  out,
  begins: 'camera_stop',
  flash_frames: 1,
  looked: false,
  pin: 1,
  ...of,
});
const log = (name: string, takes: Take[]): RollLog => ({
  roll: roll(name),
  film_speed: '18',
  revision: 7,
  inspection: NOT_INSPECTED,
  takes,
});
const logs = [
  log('R10', [take(0, 90, { setup: '9', take: 1, action: 'the crossing' })]),
  log('R2', [
    take(290, 470, { setup: '3B', take: 1, action: 'the rope, soft', rating: 'ng' }),
    take(470, 668, { setup: '3B', take: 2, action: 'the rope comes off', rating: 'circled' }),
    take(668, 700, {}),
  ]),
];
const all = takesToLayIn(logs);

describe('the takes to lay in', () => {
  it('stand circled first, no good last, between them as the rolls are counted', () => {
    expect(all.map((one) => one.slate)).toEqual(['3B-T2', '', '9-T1', '3B-T1']);
    expect(all.map((one) => one.roll)).toEqual(['R2', 'R2', 'R10', 'R2']);
  });
  it('are found by any words of theirs', () => {
    expect(foundTakes(all, 'ROPE').map((one) => one.slate)).toEqual(['3B-T2', '3B-T1']);
    expect(foundTakes(all, 'rope circled').map((one) => one.slate)).toEqual(['3B-T2']);
    expect(foundTakes(all, '3b-t1')).toHaveLength(1);
    expect(foundTakes(all, '  ')).toHaveLength(4);
    expect(foundTakes(all, 'bell')).toEqual([]);
  });
  it('are found by a frame of theirs, with its roll or on one named beside it', () => {
    const slates = (typed: string) => foundTakes(all, typed).map((one) => one.slate);
    expect(slates('R2·547')).toEqual(['3B-T2']);
    expect(slates('r2.547')).toEqual(['3B-T2']);
    expect(slates('547')).toEqual(['3B-T2']);
    expect(slates('r2 547')).toEqual(['3B-T2']);
    // The frame thrown belongs to the next take.
    expect(slates('R2·668')).toEqual(['']);
    expect(slates('R10·547')).toEqual([]);
    expect(slates('R10 12')).toEqual(['9-T1']);
    expect(slates('12')).toEqual([]);
    expect(slates('R2·547 soft')).toEqual([]);
  });
  it('are named by the slate, or not at all', () => {
    expect(slateOfTake(take(0, 1, { setup: '2A', take: 2 }))).toBe('2A-T2');
    expect(slateOfTake(take(0, 1, { setup: null, take: null }))).toBe('');
  });
});

describe('a span that Rolls asks for', () => {
  it('is read', () => expect(spanAsked('R1.402.546')).toEqual({ roll: 'R1', in: 402, out: 546 }));
  it.each(['', 'R1.546.402', 'R1.1', 'R 1.1.2', 'R1.1.2.3'])('"%s" is none', (text) =>
    expect(spanAsked(text)).toBeNull(),
  );
});

describe('another take in place of a piece', () => {
  const piece = (first: number, out: number, slate: string | null, ends: [number, number]): Shot =>
    ({
      kind: 'shot',
      roll: 'R2',
      in: first,
      out,
      slate,
      take: { in: ends[0], out: ends[1] },
    }) as Shot;
  it('comes from the same setup first, then from the same scene, never from its own take', () => {
    const more = [
      ...all,
      ...takesToLayIn([
        log('R3', [
          take(0, 100, { setup: '3', take: 1 }),
          take(100, 200, { setup: '33', take: 1, rating: 'circled' }),
          take(200, 300, { setup: '3B', take: 3 }),
        ]),
      ]),
    ];
    const found = takesInstead(more, piece(547, 607, '3B-T2', [470, 668]));
    expect(found.map((one) => one.slate)).toEqual(['3B-T1', '3B-T3', '3-T1', '', '9-T1', '33-T1']);
  });
  it('is as long, and as far from the head of its take, as the take allows', () => {
    const one = piece(547, 607, '3B-T2', [470, 668]);
    expect(sameStretch(one, take(290, 470, {}))).toEqual({ in: 367, out: 427 });
    expect(sameStretch(one, take(1000, 1100, {}))).toEqual({ in: 1040, out: 1100 });
    expect(sameStretch(one, take(1000, 1020, {}))).toEqual({ in: 1000, out: 1020 });
  });
});
