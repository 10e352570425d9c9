// @vitest-environment node
import { beforeEach, describe, expect, it } from 'vitest';
import type { FilmChange, Matched, MatchPoint, MatchRequest, RollLog, Twins } from '$lib/api/wire';
import { boat } from '../boat_v1';
import { OnAction } from './on_action.svelte';

const point = (leave: number, enter: number): MatchPoint => ({
  leave,
  due: enter,
  uncertain: 0,
  moves: 0.4,
  entries: [
    { overlap: 0, enter, repeats: 0, phase: 0 },
    { overlap: 2, enter: enter - 2, repeats: 2, phase: 0 },
  ],
});

const take = (setup: string, number: number, first: number, out: number) => ({
  setup,
  take: number,
  in: first,
  out,
  action: '',
});
const log = (roll: string, takes: ReturnType<typeof take>[]) =>
  ({ roll: { roll }, takes }) as unknown as RollLog;
const ROLLS = new Map([
  ['R1', log('R1', [take('2', 2, 1050, 1352), take('3', 1, 1945, 2611), take('3', 2, 2611, 3313)])],
  ['R2', log('R2', [take('3B', 1, 290, 470), take('3B', 2, 470, 668)])],
]);

/** A program that answers with what it is told to, when it is told to. */
class Pretend {
  film = null;
  readonly rolls = ROLLS;
  readonly asked: MatchRequest[] = [];
  readonly sent: FilmChange[] = [];
  kept = boat();
  points: (request: MatchRequest) => MatchPoint[] = () => [point(2924, 532), point(2945, 553)];
  /** Answers are held back until they are let go. */
  held: (() => void)[] | null = null;
  found: Twins = { pairs: [], looked_at: 0 };

  async matchTakes(request: MatchRequest): Promise<Matched> {
    this.asked.push(request);
    const points = this.points(request);
    if (this.held) await new Promise<void>((go) => this.held?.push(go));
    return {
      from: { ...request.from, out: 0 },
      to: { ...request.to, out: 0 },
      by: 'marks',
      marks: [
        { here: 2923, there: 531 },
        { here: 2971, there: 580 },
      ],
      marks_kept: true,
      pace: 1,
      pace_exact: '1',
      points,
      back: [],
    };
  }
  twins(): Promise<Twins> {
    return Promise.resolve(this.found);
  }
  makeOfFilm(change: FilmChange): Promise<boolean> {
    this.sent.push(change);
    return Promise.resolve(true);
  }
}

let program: Pretend;
let action: OnAction;
beforeEach(() => {
  program = new Pretend();
  action = new OnAction(program, program);
});

describe('a cut on the action is sought', () => {
  it('at the join, for the take that comes next, near where it lies', async () => {
    await action.begin(5);
    expect([action.from?.slate, action.to?.slate, action.made]).toEqual(['3-T2', '3B-T2', 'join']);
    expect(program.asked).toHaveLength(1);
    expect(program.asked[0]).toMatchObject({
      from: { roll: 'R1', in: 2611 },
      to: { roll: 'R2', in: 470 },
      leave: [2885, 2994],
      sheet: { cut: 'v1', at: 5, how: 'join' },
    });
    expect(action.cut).toMatchObject({ made: 'join', at: 5, there: { leave: 2924, enter: 532 } });
    action.there.overlap = 2;
    expect(action.cut?.there).toEqual({ leave: 2924, enter: 530 });
    expect(action.isFar).toBe(false);
  });

  it('and where nothing suits near it, in the whole of the take', async () => {
    program.points = ({ leave }) => (leave?.[0] === 2814 ? [point(3100, 600)] : []);
    await action.begin(5);
    expect(program.asked.map((one) => one.leave)).toEqual([
      [2885, 2994],
      [2814, 3313],
    ]);
    expect(action.isFar).toBe(true);
  });

  it('laid in, it has a way back that depends on the way in', async () => {
    program.points = ({ sheet }) =>
      sheet?.how === 'back' ? [point(560, 2930)] : [point(2880, 490), point(2890, 500)];
    await action.begin(5);
    await action.make('lay_in');
    const back = () => program.asked.at(-1);
    expect(back()).toMatchObject({
      from: { roll: 'R2', in: 470 },
      to: { roll: 'R1', in: 2611 },
      leave: [498, 669],
      enter: [2880, 2939],
      sheet: { at: 5, how: 'back', left: 2880, entered: 490 },
    });
    expect(action.cut?.back).toEqual({ leave: 560, enter: 2930 });
    action.there.chosen = 1;
    await action.askBack();
    expect(back()?.sheet).toMatchObject({ left: 2890, entered: 500 });
    program.points = () => [];
    await action.askBack();
    expect(action.cut).toBeNull();
    action.comesBack = false;
    expect(action.cut).toMatchObject({ made: 'lay_in', back: null });
  });

  it('an answer that comes late stands for nothing', async () => {
    program.held = [];
    const first = action.begin(5);
    await Promise.resolve();
    program.points = () => [point(2930, 538)];
    const second = action.ask();
    program.held.reverse().forEach((go) => go());
    program.held = null;
    await Promise.all([first, second]);
    expect(action.there.points.map((one) => one.leave)).toEqual([2930]);
  });

  it('of leader and cards nothing is asked', async () => {
    program.kept = { ...program.kept, pieces: [] };
    await action.begin(0);
    expect([action.from, program.asked]).toEqual([null, []]);
  });
});

describe('the takes that may be entered', () => {
  it('next on the sheet, marked, found, of the scene, the others', async () => {
    const at = (roll: string, first: number, out: number) => ({ roll, in: first, out });
    program.found = {
      looked_at: 3,
      pairs: [
        { by: 'pictures', from: at('R2', 290, 470), to: at('R1', 2611, 3313), pace: 1, marks: [] },
        { by: 'marks', from: at('R1', 2611, 3313), to: at('R1', 1050, 1352), pace: 1, marks: [] },
      ],
    };
    await action.begin(5);
    await action.loadTwins();
    expect(action.others.map(({ take: one, why }) => `${why} ${one.slate}`)).toEqual([
      'next 3B-T2',
      'marked 2-T2',
      'found 3B-T1',
      'scene 3-T1',
    ]);
  });

  it('another one is laid in, since the join does not lead to it', async () => {
    await action.begin(5);
    const other = action.others.find((one) => one.take.slate === '3-T1');
    if (!other) throw new Error('there is 3-T1');
    await action.choose(other.take);
    expect([action.made, action.canMove]).toEqual(['lay_in', false]);
  });
});

describe('two moments are marked', () => {
  it('beginning at the cut, inside the takes, and kept early before late', async () => {
    await action.begin(5);
    action.beginMarks();
    expect(action.marking).toEqual({ here: 2924, there: 532, first: null });
    action.step('here', 47);
    action.step('there', 1000);
    expect(action.marking).toMatchObject({ here: 2971, there: 667 });
    action.step('there', -87);
    expect(await action.mark()).toBe(false);
    expect(action.wrongPair).toContain('another moment');
    action.step('here', -48);
    action.step('there', 10);
    expect(action.wrongPair).toContain('gone on');
    expect(await action.mark()).toBe(false);
    action.step('there', -59);
    expect(action.wrongPair).toBe('');
    expect(await action.mark()).toBe(true);
    expect(program.sent).toEqual([
      {
        film_change: 'mark_moments',
        here: { roll: 'R1', first: 2923, second: 2971 },
        there: { roll: 'R2', first: 531, second: 580 },
      },
    ]);
    expect(action.marking).toBeNull();
  });

  it('and taken away as they stand', async () => {
    await action.begin(5);
    await action.unmark();
    expect(program.sent).toEqual([
      {
        film_change: 'unmark_moments',
        here: { roll: 'R1', first: 2923, second: 2971 },
        there: { roll: 'R2', first: 531, second: 580 },
      },
    ]);
  });
});
