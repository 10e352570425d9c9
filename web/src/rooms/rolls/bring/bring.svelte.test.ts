import { afterEach, describe, expect, it, vi } from 'vitest';
import { connect, type Server } from '$lib/api/server';
import type { Job } from '$lib/api/wire';
import { filmOf, headOf } from '../pretend_log';
import { Readings } from '../readings.svelte';
import { BringForm } from './bring_form.svelte';
import { Dropped } from './dropped.svelte';
import { DroppedFile } from './dropped_file.svelte';
import { Folders } from './folders.svelte';
import { sizeWords } from './sizes';

const json = (body: unknown, status = 200) =>
  new Response(JSON.stringify(body), {
    status,
    headers: { 'content-type': 'application/json' },
  });
const problem = { code: 'x', message: 'not there', hint: 'look again', details: null };

/** A server that answers by path, and writes down what it was asked. */
function serverOf(answers: Record<string, () => Response>): { server: Server; asked: string[] } {
  const asked: string[] = [];
  const ask = async (input: RequestInfo | URL): Promise<Response> => {
    const request = input instanceof Request ? input : new Request(input);
    const url = new URL(request.url);
    const name = `${request.method} ${url.pathname}${url.search}`;
    asked.push(request.method === 'POST' ? `${name} ${await request.text()}` : name);
    const answer = answers[`${request.method} ${url.pathname}`];
    return answer ? answer() : json(problem, 404);
  };
  const client = connect(((input: RequestInfo | URL, init?: RequestInit) =>
    ask(
      typeof input === 'string' ? new Request(`http://house${input}`, init) : input,
    )) as typeof fetch);
  return { server: client, asked };
}

const scan = (name: string) => ({ path: `/scans/${name}`, name, bytes: 5 });

describe('a roll that is to be brought in', () => {
  const form = () => new BringForm(filmOf([headOf('R1', 100)], { speed: '18' }), ['R2']);

  it('is named after those that are there and those on their way', () => {
    const one = form();
    expect([one.roll, one.speed, one.nameProblem]).toEqual(['R3', '18', null]);
    one.roll = 'r2';
    expect(one.nameProblem).toMatch(/already/);
    one.roll = 'two words';
    expect(one.nameProblem).toMatch(/short name/);
  });

  it('has its files in the order they were laid, until they are moved', () => {
    const one = form();
    ['a', 'b', 'c'].forEach((name) => one.toggle(scan(name)));
    one.move(2, -1);
    one.move(0, -1);
    expect(one.body.files).toEqual(['/scans/a', '/scans/c', '/scans/b']);
    one.toggle(scan('c'));
    expect(one.has('/scans/c')).toBe(false);
  });

  it('goes off only when it is whole', () => {
    const one = form();
    expect(one.canSend).toBe(false);
    one.toggle(scan('a'));
    expect(one.canSend).toBe(true);
    one.speed = 'fast';
    expect([one.canSend, one.speedProblem !== null]).toEqual([false, true]);
    one.speed = '50/3';
    one.measured = ' ';
    expect([one.canSend, one.body.measured, one.body.film_speed]).toEqual([true, null, '50/3']);
  });
});

describe('folders', () => {
  it('begins in the first chosen one, and only the latest look counts', async () => {
    const folder = (path: string) => ({
      path,
      above: null,
      chosen: true,
      entries: [],
      left_off: 0,
    });
    const { server, asked } = serverOf({
      'GET /api/places': () => json({ chosen: [{ path: '/scans', name: 'scans' }], home: '/ida' }),
      'GET /api/places/look': () => json(folder('/scans')),
    });
    const folders = new Folders(server);
    await folders.open();
    expect(folders.folder?.path).toBe('/scans');
    expect(asked[1]).toContain('path=%2Fscans');
  });

  it('says what cannot be looked into', async () => {
    const { server } = serverOf({});
    const folders = new Folders(server);
    await folders.look('/elsewhere');
    expect(folders.problem?.message).toBe('not there');
  });
});

describe('a dropped file', () => {
  afterEach(() => vi.unstubAllGlobals());

  it('that lies in a chosen folder is used there', async () => {
    const asked: string[] = [];
    vi.stubGlobal('fetch', async (address: string) => {
      asked.push(address);
      return json({ found: [{ path: '/scans/ferry 1.mkv' }], free: 10 });
    });
    const found: unknown[] = [];
    const dropped = new Dropped('boat', (files) => found.push(...files));
    await dropped.take([new File(['abc'], 'ferry 1.mkv')]);
    expect(asked).toEqual(['/api/films/boat/places/match?name=ferry+1.mkv&bytes=3']);
    expect(found).toEqual([{ path: '/scans/ferry 1.mkv', name: 'ferry 1.mkv', bytes: 3 }]);
    expect(dropped.isOpen).toBe(false);
  });

  it('that lies nowhere is asked about, and several go in the order of their names', async () => {
    vi.stubGlobal('fetch', async () => json({ found: [], free: 2 }));
    const dropped = new Dropped('boat', () => {
      throw new Error('nothing was found');
    });
    await dropped.take([new File(['abc'], 'part10.mkv'), new File(['a'], 'part2.mkv')]);
    expect(dropped.files.map((file) => [file.file.name, file.state, file.fits])).toEqual([
      ['part2.mkv', 'not found', true],
      ['part10.mkv', 'not found', false],
    ]);
    dropped.putAway();
    expect(dropped.isOpen).toBe(false);
  });

  it('a refusal is said, and can be tried again', async () => {
    vi.stubGlobal('fetch', async () => json(problem, 422));
    const file = new DroppedFile('boat', new File(['a'], 'a.mkv'));
    await file.look();
    expect([file.state, file.problem?.hint]).toEqual(['failed', 'look again']);
  });

  it('a folder is not taken for a file', async () => {
    const dropped = new Dropped('boat', () => undefined);
    await dropped.take([new File([''], 'frames')], 'frames');
    expect([dropped.folder, dropped.files.length, dropped.isOpen]).toEqual(['frames', 0, true]);
  });
});

const job = (number: number, state: string, more: Partial<Job> = {}): Job => ({
  job: number,
  kind: 'read',
  film: 'boat',
  roll: `R${number}`,
  words: 'reading',
  state,
  done: 0,
  unit: 'frames',
  total: null,
  left_seconds: null,
  notes: [],
  pictures: [],
  problem: null,
  ...more,
});

class PretendJobs {
  all = $state.raw([job(1, 'done'), job(2, 'running'), job(3, 'running', { film: 'other' })]);

  putAway(number: number): void {
    this.all = this.all.filter((each) => each.job !== number);
  }
}

describe('rolls on their way', () => {
  it('the end of a reading is told only where it was seen running', () => {
    const jobs = new PretendJobs();
    const readings = new Readings(jobs, 'boat');
    readings.watch();
    expect(readings.running.map((each) => each.job)).toEqual([2]);
    expect(readings.ended).toEqual([]);
    jobs.all = [job(1, 'done'), job(2, 'failed')];
    expect(readings.ended.map((each) => each.job)).toEqual([2]);
    expect(readings.coming.map((each) => each.roll)).toEqual(['R2']);
    expect(readings.of('R2')?.state).toBe('failed');
    readings.putAway(2);
    expect(jobs.all.map((each) => each.job)).toEqual([1]);
  });
});

it('sizes are said as makers of disks do', () => {
  expect([0, 999, 1000, 753_000, 2_400_000, 62_000_000_000, 9_960_000].map(sizeWords)).toEqual([
    '0 bytes',
    '999 bytes',
    '1.0 kB',
    '753 kB',
    '2.4 MB',
    '62 GB',
    '10 MB',
  ]);
});
