import { describe, expect, it } from 'vitest';
import type { Film, ReelPlan, ReelPlanRequest } from '$lib/api/wire';
import { acrossSum } from './across_sum';
import { Hall, hallLength } from './hall.svelte';
import { numberFrom, ReelMakeup, stretchWords } from './reel_makeup.svelte';

const cuts = ['v1', 'v2', 'v3'].map((cut) => ({ cut }));
const film = { cuts } as unknown as Film;
const plan = (title: string) => ({ title }) as unknown as ReelPlan;

function made(reelPlan: (body: ReelPlanRequest) => Promise<ReelPlan> = async () => plan('')) {
  return new ReelMakeup({ film, reelPlan, reelLabels: async () => new Blob(['%PDF']) });
}

describe('labels', () => {
  it('are printed of a plan that fits, out of what was asked for it', async () => {
    const asked: ReelPlanRequest[] = [];
    const fits = { fits: true } as unknown as ReelPlan;
    const makeup = new ReelMakeup({
      film,
      reelPlan: async () => fits,
      reelLabels: async (body) => {
        asked.push(body);
        return new Blob(['%PDF']);
      },
    });
    makeup.begin('v2');
    makeup.owner = 'Ida Voss';
    expect(await makeup.labels()).toBeNull();
    await makeup.ask();
    expect((await makeup.labels())?.size).toBe(4);
    expect(asked.map((one) => [one.cuts, one.owner])).toEqual([[['v2'], 'Ida Voss']]);
    expect(makeup.printing).toBe(false);
  });
});

describe('a programme', () => {
  it('begins with the version on the screen and keeps its order', () => {
    const makeup = made();
    makeup.begin('v2');
    makeup.add('v1');
    makeup.add('v3');
    makeup.earlier('v3');
    expect(makeup.films).toEqual(['v2', 'v3', 'v1']);
    makeup.earlier('v2');
    makeup.leaveOut('v3');
    expect(makeup.films).toEqual(['v2', 'v1']);
    expect(makeup.others).toEqual(['v3']);
    // Opened again on another version, it stays as it was made.
    makeup.begin('v3');
    expect(makeup.films).toEqual(['v2', 'v1']);
  });

  it('asks only for what was typed', async () => {
    const asked: ReelPlanRequest[] = [];
    const makeup = made(async (body) => {
      asked.push(body);
      return plan('');
    });
    makeup.begin('v2');
    makeup.thickness = '0,145';
    makeup.reels = ' 50ft, grey ;';
    await makeup.ask();
    expect(asked[0]).toMatchObject({
      cuts: ['v2'],
      leader: '10ft0',
      tail_leader: null,
      thickness_mm: 0.145,
      hub_mm: null,
      reels: ['50ft', 'grey'],
      lies: 'not-known',
      sound: null,
    });
    makeup.hub = 'thick';
    await makeup.ask();
    expect(asked).toHaveLength(1);
    expect(makeup.problem).toContain('The hub is a number');
    makeup.films = [];
    await makeup.ask();
    expect(makeup.problem).toContain('No film');
  });

  it('of two answers on their way only the last counts', async () => {
    const answers: ((plan: ReelPlan) => void)[] = [];
    const makeup = made(() => new Promise((tell) => answers.push(tell)));
    makeup.begin('v1');
    const [first, second] = [makeup.ask(), makeup.ask()];
    answers[1]?.(plan('new'));
    answers[0]?.(plan('old'));
    await Promise.all([first, second]);
    expect(makeup.plan?.title).toBe('new');
  });
});

it('stretches are named in order from the head', () => {
  const part = (what: string, cut?: string, from?: number, to?: number) =>
    stretchWords({ what, cut: cut ?? null, from: from ?? null, to: to ?? null });
  expect(part('leader')).toBe('head leader');
  expect(part('film', 'v2')).toBe('v2');
  expect(part('film', 'v2', 1, 12)).toBe('v2, no. 1 to 12');
  expect(part('film', 'v2', 3, 3)).toBe('v2, no. 3');
});

it('numbers and lengths are read as they are typed', () => {
  expect([numberFrom(''), numberFrom('0,145'), numberFrom('32')]).toEqual([null, 0.145, 32]);
  expect(numberFrom('thick')).toBeNaN();
  expect([hallLength(''), hallLength('1,2'), hallLength('120cm')]).toEqual([null, '1.2m', '120cm']);
});

it('the sum of the width across ends where the program does', () => {
  // Story 12: 3,372 frames on a hub of 32 mm at 0.145 mm.
  const sum = acrossSum(3372, 72, 32, 0.145, 60.5);
  expect(sum[0]?.comes).toBe('14,275 mm');
  expect(Math.sqrt(Number(sum[2]?.comes.replace(/,/g, '').split(' ')[0]))).toBeCloseTo(60.5, 1);
});

it('a hall is asked for with two of three', async () => {
  const asked: unknown[] = [];
  const hall = new Hall({
    throwOf: async (body) => {
      asked.push(body);
      throw new Error('no answer');
    },
  });
  hall.width = '1,2';
  await hall.ask('super8');
  expect(asked[0]).toEqual({
    gauge: 'super8',
    lens_mm: 20,
    width: '1.2m',
    distance: null,
    last_row: '5m',
  });
  expect(hall.problem).not.toBeNull();
  hall.wanted = 'lens';
  expect(hall.request('16')).toMatchObject({ lens_mm: null, distance: '4.5m' });
  hall.wanted = 'width';
  hall.lens = 'long';
  await hall.ask('super8');
  expect(hall.problem).toContain('The lens is a number');
});
