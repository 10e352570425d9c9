// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { parseRun, RunBroken } from './run_format';
import { RunRefused, runSource } from './run_source';

const A = [0xff, 0xd8, 0x01, 0xff, 0xd9];
const B = [0xff, 0xd8, 0xff, 0xd9];

function packed(...pictures: number[][]): Uint8Array<ArrayBuffer> {
  const lengths = (bytes: number) => [
    bytes & 255,
    (bytes >> 8) & 255,
    (bytes >> 16) & 255,
    bytes >> 24,
  ];
  return new Uint8Array(pictures.flatMap((each) => [...lengths(each.length), ...each]));
}

async function bytes(blob: Blob | null | undefined): Promise<number[] | null> {
  return blob ? [...new Uint8Array(await blob.arrayBuffer())] : null;
}

/** The fault that a body has. */
function broken(body: Uint8Array<ArrayBuffer>, asked: number): RunBroken {
  try {
    parseRun(body, asked);
  } catch (error) {
    if (error instanceof RunBroken) return error;
  }
  throw new Error('it was taken for whole');
}

describe('a run of frames', () => {
  it('is pictures in order, with null where there is none', async () => {
    const pictures = parseRun(packed(A, [], B), 3);
    expect(await Promise.all(pictures.map(bytes))).toEqual([A, null, B]);
    expect(pictures[0]?.type).toBe('image/jpeg');
    expect(parseRun(packed(), 0)).toEqual([]);
  });

  it('reads lengths lowest byte first, also beyond one byte', async () => {
    const long = Array.from({ length: 70_000 }, (_, at) => at & 255);
    expect(await bytes(parseRun(packed(long), 1)[0])).toEqual(long);
  });

  it('reads a body that begins inside its buffer', async () => {
    const room = new Uint8Array([9, 9, 9, ...packed(A, B)]);
    const pictures = parseRun(room.subarray(3), 2);
    expect(await Promise.all(pictures.map(bytes))).toEqual([A, B]);
  });

  it('is broken wherever it is cut inside a frame, and says how much came whole', () => {
    const body = packed(A, [], B);
    // Frame 1 ends after 9 bytes, frame 2 after 13, frame 3 after 21.
    const ends = [0, 9, 13];
    for (let length = 0; length < body.length; length += 1) {
      if (ends.includes(length)) continue;
      const whole = length < 9 ? 0 : length < 13 ? 1 : 2;
      const fault = broken(body.subarray(0, length), 3);
      expect([fault.whole, fault.asked], `cut at ${length}`).toEqual([whole, 3]);
    }
    expect(parseRun(body, 3)).toHaveLength(3);
  });

  it('that ends between two frames says that the roll has no more', async () => {
    const body = packed(A, [], B);
    for (const [length, whole] of [
      [0, [null, null, null]],
      [9, [A, null, null]],
      [13, [A, null, null]],
    ] as const) {
      const pictures = parseRun(body.subarray(0, length), 3);
      expect(await Promise.all(pictures.map(bytes)), `ends at ${length}`).toEqual(whole);
    }
  });

  it('is broken when a length is absurd or frames are left over', () => {
    expect(broken(new Uint8Array([255, 255, 255, 255, 1]), 1).message).toContain(
      'inside a picture',
    );
    expect(broken(packed(A, B), 1).message).toContain('after its last frame');
  });
});

describe('the source over HTTP', () => {
  const address = (roll: string, first: number, count: number) => `/run/${roll}/${first}/${count}`;

  it('asks where it is told to and unpacks the answer', async () => {
    const asked: unknown[] = [];
    const source = runSource(address, (url) => {
      asked.push(url);
      return Promise.resolve(new Response(packed(A, [])));
    });
    const pictures = await source('R1', 547, 2, new AbortController().signal);
    expect(asked).toEqual(['/run/R1/547/2']);
    expect(await Promise.all(pictures.map(bytes))).toEqual([A, null]);
  });

  it('says what the server refused, and what came broken', async () => {
    const signal = new AbortController().signal;
    const refusing = runSource(address, () => Promise.resolve(new Response('no', { status: 404 })));
    await expect(refusing('R9', 0, 8, signal)).rejects.toThrow(RunRefused);
    await expect(refusing('R9', 0, 8, signal)).rejects.toMatchObject({ status: 404 });
    const short = runSource(address, () => Promise.resolve(new Response(packed(A).subarray(0, 7))));
    await expect(short('R1', 0, 2, signal)).rejects.toThrow(RunBroken);
  });

  it('hands on the signal that calls it off', async () => {
    const source = runSource(address, (_url, how) =>
      how?.signal?.aborted
        ? Promise.reject(new Error('called off'))
        : Promise.resolve(new Response()),
    );
    const stop = new AbortController();
    stop.abort();
    await expect(source('R1', 0, 1, stop.signal)).rejects.toThrow('called off');
  });
});
