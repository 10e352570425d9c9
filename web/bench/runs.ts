// A run of frames over HTTP, beside the same bytes straight from the workprint.
import { closeSync, openSync, readdirSync, readSync } from 'node:fs';
import { join } from 'node:path';
import { Figures, kilobytes, time } from './figures';
import type { Line } from './line';
import { ROLL } from './shelf';
import { Table } from './table';

const COUNT = 24;
const TIMES = 200;
/** Source: issue 3. Unit: milliseconds. */
const LIMIT = 5;

/** The JPEGs of a run: each behind its length of four bytes, least first. */
function jpegsOf(run: Buffer): Buffer[] {
  const found: Buffer[] = [];
  for (let at = 0; at < run.length; ) {
    const bytes = run.readUInt32LE(at);
    found.push(run.subarray(at + 4, at + 4 + bytes));
    at += 4 + bytes;
  }
  return found;
}

/** Where each frame begins in a workprint whose pictures lie one after another. */
async function beginnings(line: Line, path: string): Promise<number[]> {
  const begins = [0];
  for (let first = 0; first < ROLL.frames; first += COUNT) {
    const count = Math.min(COUNT, ROLL.frames - first);
    for (const jpeg of jpegsOf(await line.bytes(`${path}&first=${first}&count=${count}`))) {
      begins.push((begins.at(-1) ?? 0) + jpeg.length);
    }
  }
  return begins;
}

export async function fetchRuns(line: Line, film: string, dir: string): Promise<Table> {
  const { rolls } = await line.film(film);
  const pictures = rolls.find((one) => one.roll === ROLL.name)?.pictures ?? '';
  const path = `/api/films/${film}/rolls/${ROLL.name}/run?pictures=${pictures}`;
  const begins = await beginnings(line, path);
  const prints = join(dir, 'workprints');
  const name = readdirSync(prints).find((one) => one.endsWith('.mjpeg'));
  if (!name) throw new Error(`no workprint lies in ${prints}`);

  const [overHttp, fromFile, sizes]: [number[], number[], number[]] = [[], [], []];
  const file = openSync(join(prints, name), 'r');
  for (let turn = 0; turn < TIMES; turn += 1) {
    // In no order; 521 has no factor in common with the places there are.
    const first = (turn * 521) % (ROLL.frames - COUNT);
    let began = performance.now();
    const run = await line.bytes(`${path}&first=${first}&count=${COUNT}`);
    overHttp.push(performance.now() - began);

    const [begin, end] = [begins[first] ?? 0, begins[first + COUNT] ?? 0];
    began = performance.now();
    const read = Buffer.allocUnsafe(end - begin);
    readSync(file, read, 0, read.length, begin);
    fromFile.push(performance.now() - began);
    if (!Buffer.concat(jpegsOf(run)).equals(read)) throw new Error(`run ${first} is another`);
    sizes.push(run.length);
  }
  closeSync(file);
  return tableOf(new Figures(overHttp), new Figures(fromFile), new Figures(sizes));
}

function tableOf(overHttp: Figures, fromFile: Figures, sizes: Figures): Table {
  const table = new Table();
  table.limited(`a run of ${COUNT} frames, median of ${TIMES}`, overHttp.median, LIMIT, time);
  table.limited(`a run of ${COUNT} frames, 99th of 100`, overHttp.ninetyNinth, LIMIT, time);
  table.told('the same bytes from the workprint, median', time(fromFile.median));
  table.told('HTTP beside the file', (overHttp.median / fromFile.median).toFixed(1));
  table.told('a picture, mean', kilobytes(sizes.median / COUNT));
  return table;
}
