import { beforeEach, describe, expect, it } from 'vitest';
import { connect, NotReached, Refused } from '$lib/api/server';
import { TabletBenchDesk } from './tablet_bench_desk';
import {
  codeOfAddress,
  comeIn,
  filmOfTablet,
  tabletPicture,
  tabletSmall,
  type TabletFilm,
} from './tablet_door';

const FILM = {
  film: 'boat',
  title: 'A Boat',
  tablet: 'blue tablet',
  rolls: [
    { roll: 'R1', pictures: 'abc' },
    { roll: 'R 2', pictures: 'd&e' },
    { roll: 'R3', pictures: null },
  ],
} as unknown as TabletFilm;

/** A server that answers so, and what it was asked. */
function server(status: number, body: object) {
  const asked: { method: string; path: string; body: unknown }[] = [];
  const fetcher = async (request: Request) => {
    const sent = await request.text();
    const path = new URL(request.url).pathname;
    asked.push({ method: request.method, path, body: sent ? (JSON.parse(sent) as unknown) : null });
    return new Response(JSON.stringify(body), {
      status,
      headers: { 'content-type': 'application/json' },
    });
  };
  return { server: connect(fetcher as typeof fetch), asked };
}

const OUTSIDE = { code: 'tablet.not_let_in', message: 'not let in', hint: 'ask', details: null };

describe('coming in', () => {
  beforeEach(() => history.replaceState(null, '', '/'));

  it('the code of a camera’s address is taken out of it', () => {
    history.replaceState(null, '', '/#code=48291753');
    expect(codeOfAddress()).toBe('48291753');
    expect(location.href).not.toContain('48291753');
    expect(codeOfAddress()).toBe('');
    history.replaceState(null, '', '/#code=<script>');
    expect(codeOfAddress()).toBe('');
  });

  it('sends the figures alone, however they are typed', async () => {
    const { server: at, asked } = server(200, FILM);
    expect(await comeIn(at, ' 4829-1753 ', 'blue')).toEqual(FILM);
    expect(asked[0]).toEqual({
      method: 'POST',
      path: '/api/bench/tablet',
      body: { code: '48291753', name: 'blue' },
    });
  });

  it('not let in is no film; anything else is told', async () => {
    expect(await filmOfTablet(server(401, OUTSIDE).server)).toBeNull();
    await expect(filmOfTablet(server(500, OUTSIDE).server)).rejects.toThrow(Refused);
  });
});

describe('pictures', () => {
  it('are asked for at the tablet’s own door, by name', () => {
    expect(tabletPicture(FILM, 'R1', 7)).toBe('/api/bench/tablet/rolls/R1/pictures/7?pictures=abc');
    expect(tabletSmall(FILM, 'R 2', 7, 48)).toBe(
      '/api/bench/tablet/rolls/R%202/small/7?height=48&pictures=d%26e',
    );
    expect(tabletPicture(FILM, 'R3', 7)).toBeUndefined();
    expect(tabletPicture(FILM, 'R9', 7)).toBeUndefined();
  });
});

describe('the bench of a tablet', () => {
  it('sent away it keeps what it wrote, as one that reaches nobody', async () => {
    let outside = 0;
    const desk = new TabletBenchDesk(
      'boat',
      server(401, OUTSIDE).server,
      () => undefined,
      () => (outside += 1),
    );
    const tick = { bench: 'tick', lines: 3 } as const;
    await expect(desk.write('k', tick, 1)).rejects.toThrow(NotReached);
    expect(outside).toBe(1);
  });

  it('refused for another reason it says so', async () => {
    const stale = { ...OUTSIDE, code: 'store.stale' };
    const desk = new TabletBenchDesk(
      'boat',
      server(409, stale).server,
      () => undefined,
      () => expect.unreachable(),
    );
    await expect(desk.write('k', { bench: 'tick', lines: 3 }, 1)).rejects.toThrow(Refused);
  });

  it('knows the revision that its own tick led to', async () => {
    const { server: at, asked } = server(200, { revision: 9, already: false });
    const desk = new TabletBenchDesk(
      'boat',
      at,
      () => undefined,
      () => undefined,
    );
    await desk.write('a', { bench: 'tick', lines: 3 }, 4);
    await desk.write('b', { bench: 'tick', lines: 4 }, 4);
    expect(asked.map(({ body }) => (body as { revision: number }).revision)).toEqual([4, 9]);
  });
});
