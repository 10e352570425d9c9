import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { connect } from '$lib/api/server';
import type { JobEvent, Part } from '$lib/api/wire';
import type { Connection } from './connection.svelte';
import { FilmDesk } from './film_desk.svelte';

const FILM = '/api/films/boat';
const CUT: Part = { part: 'cut', cut: 'v1' };

/** A program that answers with what it is told to, and keeps count of what was asked. */
function pretend() {
  const asked: string[] = [];
  const answers = new Map<string, unknown>([
    [`GET ${FILM}`, { title: 'The Ten-Past Boat', revision: 4, cuts: [{ cut: 'v1' }] }],
    [`GET ${FILM}/cuts/v1`, { cut: 'v1', revision: 4, pieces: [] }],
  ]);
  const server = connect(async (given) => {
    const request = given as Request;
    const what = `${request.method} ${new URL(request.url).pathname}`;
    asked.push(what);
    return new Response(JSON.stringify(answers.get(what)), {
      headers: { 'content-type': 'application/json' },
    });
  });
  let tell: (event: JobEvent) => void = () => {};
  const connection = {
    hear: (hearer: typeof tell) => {
      tell = hearer;
      return () => {};
    },
    onReturn: () => () => {},
    notReached: () => {},
  };
  const desk = new FilmDesk('boat', server, connection as unknown as Connection);
  const changed = (revision: number, parts: Part[], film = 'boat') =>
    tell({ event: 'changed', film, revision, words: 'a piece was moved', parts });
  return { asked, answers, desk, changed };
}

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

describe('what is heard of changes', () => {
  it('before the answer to a change of our own: the answer itself is enough', async () => {
    const { asked, answers, desk, changed } = pretend();
    await desk.loadCut('v1');
    const kept = { revision: 5, words: 'moved', cut: { cut: 'v1', revision: 5, pieces: [] } };
    answers.set(`POST ${FILM}/changes`, kept);
    asked.length = 0;
    changed(5, [CUT]);
    await desk.changeCut('v1', { change: 'move', from: 0, to: 1 });
    expect(asked).toEqual([`POST ${FILM}/changes`]);
    await vi.advanceTimersByTimeAsync(100);
    expect(asked).toEqual([`POST ${FILM}/changes`, `GET ${FILM}`]);
    expect(desk.cuts.get('v1')?.revision).toBe(5);
  });

  it('from another window: what is shown is asked for anew', async () => {
    const { asked, answers, desk, changed } = pretend();
    await desk.loadCut('v1');
    answers.set(`GET ${FILM}/cuts/v1`, { cut: 'v1', revision: 6, pieces: [] });
    asked.length = 0;
    changed(6, [CUT]);
    await vi.advanceTimersByTimeAsync(100);
    expect(asked.sort()).toEqual([`GET ${FILM}`, `GET ${FILM}/cuts/v1`]);
    expect(desk.cuts.get('v1')?.revision).toBe(6);
  });

  it('a version that another window has thrown away is not asked for again', async () => {
    const { asked, answers, desk, changed } = pretend();
    await desk.loadCut('v1');
    answers.set(`GET ${FILM}`, { revision: 6, cuts: [], rolls: [] });
    asked.length = 0;
    changed(6, [CUT]);
    await vi.advanceTimersByTimeAsync(100);
    expect(asked).toEqual([`GET ${FILM}`]);
    expect(desk.cuts.size).toBe(0);
  });

  it('many at once: the film is asked for once', async () => {
    const { asked, changed } = pretend();
    for (const revision of [5, 6, 7]) changed(revision, []);
    await vi.advanceTimersByTimeAsync(100);
    expect(asked).toEqual([`GET ${FILM}`]);
    changed(8, []);
    await vi.advanceTimersByTimeAsync(100);
    expect(asked).toEqual([`GET ${FILM}`, `GET ${FILM}`]);
  });

  it('of another film, or after it was put away: nothing is asked for', async () => {
    const { asked, desk, changed } = pretend();
    changed(5, [CUT], 'train');
    await vi.advanceTimersByTimeAsync(100);
    changed(5, [CUT]);
    desk.leave();
    await vi.advanceTimersByTimeAsync(100);
    expect(asked).toEqual([]);
  });
});
