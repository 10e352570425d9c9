import { describe, expect, it } from 'vitest';
import type { Server } from '$lib/api/server';
import type { FilmChange, Proof, ReelSeen } from '$lib/api/wire';
import { actsOf, ReelLog, runsOf } from './reel_log.svelte';

const PROOF = {
  cut: 'v1',
  frames: 60,
  errors: [],
  strips: [{ at: 0, roll: 'R1', in: 10, out: 70, mirrored: false, upside_down: false }],
  spans: [],
  warnings: [],
} as unknown as Proof;

const SEEN: ReelSeen = {
  on_the_bench: true,
  lines: 4,
  strips: [1, 0],
  acts: [2, 1, 1],
  words: ['R1 put on the rewinds', 'cut before R1·10', 'cut before R1·70', 'shot 1 joined on'],
  refused: '',
};

function server(answer: () => unknown): Server {
  const POST = () => {
    try {
      return Promise.resolve({ data: answer(), response: new Response() });
    } catch (why) {
      return Promise.reject(why as Error);
    }
  };
  return { POST } as unknown as Server;
}

function desk(refuses = false) {
  const sent: [FilmChange, number][] = [];
  return {
    sent,
    name: 'boat',
    film: { revision: 17 },
    change(change: FilmChange, seen: number) {
      sent.push([change, seen]);
      return refuses ? Promise.reject(new Error('stale')) : Promise.resolve({});
    },
  };
}

describe('the log of the bench beside a scan of the reel', () => {
  it('asks first and writes what was shown', async () => {
    const film = desk();
    const log = new ReelLog(
      server(() => SEEN),
      film,
      PROOF,
      'reel.mkv',
    );
    await log.look();
    expect(log.seen).toEqual(SEEN);
    expect(film.sent).toEqual([]);
    await log.write();
    const strip = { roll: 'R1', in: 10, out: 70, mirrored: false, upside_down: false };
    const change = { bench: 'seen', lines: 4, scan: 'reel.mkv', film: [strip] };
    expect(film.sent).toEqual([[{ film_change: 'at_the_bench', ...change }, 17]]);
    expect(log.written).toBe(true);
  });

  it('writes nothing before it has asked, and says what refused it', async () => {
    const film = desk(true);
    const log = new ReelLog(
      server(() => SEEN),
      film,
      PROOF,
      'reel.mkv',
    );
    await log.write();
    expect(film.sent).toEqual([]);
    await log.look();
    await log.write();
    expect([log.written, log.writing]).toEqual([false, false]);
    expect(log.problem?.message).toBeTruthy();
  });
});

it('says what was never ticked', () => {
  expect(actsOf({ acts: [5, 5, 2] })).toBe(
    '12 acts were never ticked: 5 cuts, 5 joins and 2 others.',
  );
  expect(actsOf({ acts: [0, 1, 0] })).toBe('1 act was never ticked: 1 join.');
  expect(runsOf({ strips: [9, 4] })).toBe(
    'The reel has 9 runs of film, the log of the bench has 4.',
  );
  expect(runsOf({ strips: [1, 0] })).toBe(
    'The reel has 1 run of film, the log of the bench has none.',
  );
});
