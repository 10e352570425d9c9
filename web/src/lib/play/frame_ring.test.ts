// @vitest-environment node
import { beforeEach, describe, expect, it } from 'vitest';
import type { FrameName } from '$lib/film/frame_name';
import { JpegShelf } from './jpeg_shelf';
import { PretendClock, PretendServer, pretendRing, settle } from './pretend';
import { RunBroken } from './run_format';
import { RunRefused } from './run_source';

const frames = (roll: string, first: number, count: number): FrameName[] =>
  Array.from({ length: count }, (_, off) => ({ roll, frame: first + off }));

let clock: PretendClock;
let server: PretendServer;
const runs = () => server.asked.map(({ roll, first, count }) => `${roll} ${first}+${count}`);

beforeEach(() => {
  clock = new PretendClock();
  server = new PretendServer(clock);
});

describe('the ring ahead of the gate', () => {
  it('fetches in runs of eight, three at a time, the most urgent first', async () => {
    server.delay = () => 10;
    const { ring } = pretendRing(server);
    ring.want(frames('R1', 100, 32));
    expect(runs()).toEqual(['R1 100+8', 'R1 108+8', 'R1 116+8']);
    await clock.moveTo(10);
    expect(runs()).toEqual(['R1 100+8', 'R1 108+8', 'R1 116+8', 'R1 124+8']);
    await clock.moveTo(20);
    expect(ring.size).toBe(32);
    expect(ring.get('R1', 131)).toMatchObject({ kind: 'picture', picture: { name: 'R1·131' } });
  });

  it('as the gate moves on, asks for whole runs and frees what lies behind', async () => {
    const { ring, made } = pretendRing(server);
    for (let at = 0; at < 400; at += 1) {
      ring.want(frames('R1', at, 24));
      await settle();
      expect(ring.get('R1', at), `frame ${at}`).toBeDefined();
    }
    // 399 + 24 frames were wanted; all fetches are of eight but the first few.
    expect(server.asked.filter(({ count }) => count === 8).length).toBe(server.asked.length);
    expect(server.asked.length).toBe(Math.floor((399 + 24) / 8));
    expect(ring.size).toBeLessThanOrEqual(24);
    expect(made.filter((each) => !each.closed)).toHaveLength(ring.size);
  });

  it('survives segments that change the roll, and the last frames of one', async () => {
    const { ring } = pretendRing(server);
    ring.want([...frames('R2', 600, 3), ...frames('R1', 2996, 5), ...frames('R3', 0, 16)]);
    await settle();
    expect(ring.size).toBe(24);
    expect(runs()).toEqual(['R2 600+3', 'R1 2996+5', 'R3 0+8', 'R3 8+8']);
  });

  it('runs backwards as well', async () => {
    const { ring } = pretendRing(server);
    ring.want(frames('R1', 77, 24).reverse());
    await settle();
    expect(runs()).toEqual(['R1 93+8', 'R1 85+8', 'R1 77+8']);
    expect(ring.size).toBe(24);
  });

  it('a short run waits until it is near', async () => {
    const { ring } = pretendRing(server);
    ring.want(frames('R1', 0, 24));
    await settle();
    ring.want(frames('R1', 5, 24));
    await settle();
    expect(runs()).toHaveLength(3);
    ring.want(frames('R1', 13, 16));
    await settle();
    expect(runs().slice(3)).toEqual(['R1 24+5']);
  });

  it('going back fetches nothing twice', async () => {
    const { ring } = pretendRing(server);
    ring.want(frames('R1', 0, 24));
    await settle();
    ring.want(frames('R1', 200, 24));
    await settle();
    const before = server.asked.length;
    ring.want(frames('R1', 0, 24));
    await settle();
    expect(ring.size).toBe(24);
    expect(server.asked).toHaveLength(before);
  });

  it('knows frames that no scan shows', async () => {
    server.missing.add('R1·3');
    const { ring } = pretendRing(server);
    ring.want(frames('R1', 0, 8));
    await settle();
    expect(ring.get('R1', 3)).toEqual({ kind: 'none' });
    expect(ring.get('R1', 4)?.kind).toBe('picture');
  });
});

describe('late answers', () => {
  it('are dropped after a seek, and their fetches called off', async () => {
    server.delay = (_roll, first) => (first < 100 ? 500 : 5);
    const { ring, made } = pretendRing(server);
    ring.want(frames('R1', 0, 24));
    ring.want(frames('R1', 1000, 24));
    expect(server.asked.slice(0, 3).every(({ signal }) => signal.aborted)).toBe(true);
    await clock.moveTo(10);
    expect(ring.get('R1', 1000)?.kind).toBe('picture');
    await clock.moveTo(1000);
    expect(ring.size).toBe(24);
    expect(ring.get('R1', 0)).toBeUndefined();
    expect(made.map((each) => each.name)).not.toContain('R1·0');
  });

  it('of the decoder are freed at once', async () => {
    const decoded: { closed: boolean; close(): void }[] = [];
    const decode = async () => {
      await clock.wait(50);
      const picture = {
        name: '',
        closed: false,
        close() {
          this.closed = true;
        },
      };
      decoded.push(picture);
      return picture;
    };
    const { ring } = pretendRing(server, { decode });
    ring.want(frames('R1', 0, 8));
    await settle();
    ring.want(frames('R2', 0, 8));
    await clock.moveTo(60);
    expect(decoded.length).toBeGreaterThanOrEqual(2);
    expect(decoded.slice(0, 2).map((each) => each.closed)).toEqual([true, true]);
    await clock.moveTo(1000);
    expect(decoded.filter((each) => !each.closed)).toHaveLength(8);
    ring.clear();
    expect(decoded.every((each) => each.closed)).toBe(true);
  });

  it('of a roll that was read anew are not believed', async () => {
    const { ring } = pretendRing(server);
    server.delay = () => 10;
    ring.want(frames('R1', 0, 8));
    await clock.moveTo(5);
    ring.forget('R1');
    await clock.moveTo(11);
    expect(ring.size).toBe(0);
    await clock.moveTo(20);
    expect(ring.size).toBe(8);
    expect(runs()).toEqual(['R1 0+8', 'R1 0+8']);
  });

  it('of a roll that was read anew are freed, though the decoder had them', async () => {
    const decoded: { closed: boolean; close(): void }[] = [];
    const decode = async () => {
      await clock.wait(50);
      const picture = { name: '', closed: false, close: () => void (picture.closed = true) };
      decoded.push(picture);
      return picture;
    };
    const { ring } = pretendRing(server, { decode }, { decodes: 1 });
    ring.want(frames('R1', 0, 1));
    await clock.moveTo(20);
    ring.forget('R1');
    await clock.moveTo(60);
    expect([decoded.length, ring.size, decoded[0]?.closed]).toEqual([1, 0, true]);
    await clock.moveTo(100);
    expect([decoded.length, ring.size]).toEqual([2, 1]);
  });

  it('two pictures at most are decoded at once', async () => {
    let [now, most] = [0, 0];
    const decode = async () => {
      now += 1;
      most = Math.max(most, now);
      await clock.wait(3);
      now -= 1;
      return { name: '', closed: false, close: () => undefined };
    };
    const { ring } = pretendRing(server, { decode }, { decodes: 2 });
    ring.want(frames('R1', 0, 24));
    await clock.moveTo(200);
    expect([most, ring.size]).toEqual([2, 24]);
  });
});

describe('trouble', () => {
  it('with the connection is told and tried again, longer apart each time', async () => {
    const told: unknown[] = [];
    let works = false;
    server.refuse = () => {
      if (!works) throw new TypeError('not connected');
    };
    const { ring } = pretendRing(
      server,
      { onTrouble: (error) => told.push(error) },
      { fetches: 1 },
    );
    ring.want(frames('R1', 0, 8));
    await clock.moveTo(249);
    expect([told.length, server.asked.length]).toEqual([1, 1]);
    await clock.moveTo(250);
    await clock.moveTo(749);
    expect(server.asked).toHaveLength(2);
    await clock.moveTo(60_000);
    // Then each 4 s, without end, and no frame is called spoilt for it.
    expect(server.asked.length).toBeGreaterThan(12);
    expect(ring.get('R1', 0)).toBeUndefined();
    works = true;
    await clock.moveTo(65_000);
    expect(ring.size).toBe(8);
  });

  it('with one frame for good spoils that frame and no other', async () => {
    server.refuse = (_roll, first, count) => {
      if (first <= 7 && 7 < first + count) throw new RunBroken(0, count, 'the run ends');
    };
    const { ring } = pretendRing(server, {}, { fetches: 1 });
    ring.want(frames('R1', 7, 1));
    await clock.moveTo(100);
    ring.want(frames('R1', 0, 16));
    await clock.moveTo(60_000);
    expect(server.asked.filter(({ first }) => first === 7).every(({ count }) => count === 1)).toBe(
      true,
    );
    expect(ring.get('R1', 7)).toEqual({ kind: 'spoilt' });
    const kinds = frames('R1', 0, 16).map(({ roll, frame }) => ring.get(roll, frame)?.kind);
    expect(kinds.filter((kind) => kind === 'picture')).toHaveLength(15);
  });

  it('a server that is ill is asked again, one that says no is believed', async () => {
    for (const [status, kind] of [
      [503, undefined],
      [404, 'spoilt'],
    ] as const) {
      server.refuse = (roll, first) => {
        throw new RunRefused(status, roll, first);
      };
      const { ring } = pretendRing(server);
      ring.want(frames('R1', 0, 1));
      await clock.moveTo(clock.ms + 60_000);
      expect(ring.get('R1', 0)?.kind, String(status)).toBe(kind);
      ring.clear();
    }
  });

  it('a picture that cannot be decoded is spoilt', async () => {
    const { ring } = pretendRing(server, { decode: () => Promise.reject(new Error('no JPEG')) });
    ring.want(frames('R1', 0, 1));
    await settle();
    expect(ring.get('R1', 0)).toEqual({ kind: 'spoilt' });
  });
});

describe('the shelf of JPEGs', () => {
  it('throws out what was used longest ago', () => {
    const shelf = new JpegShelf(2);
    shelf.put('R1', 1, null);
    shelf.put('R1', 2, null);
    shelf.get('R1', 1);
    shelf.put('R1', 3, null);
    expect([1, 2, 3].map((frame) => shelf.get('R1', frame))).toEqual([null, undefined, null]);
    expect(shelf.size).toBe(2);
  });

  it('forgets one roll and keeps those whose names begin alike', () => {
    const shelf = new JpegShelf(9);
    shelf.put('R1', 0, null);
    shelf.put('R10', 0, null);
    shelf.forget('R1');
    expect([shelf.get('R1', 0), shelf.get('R10', 0)]).toEqual([undefined, null]);
  });
});
