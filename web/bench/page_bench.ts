// `./bench page`: what the page promises, measured in headless Chromium with
// the program itself on a shelf of its own. It prints, and asserts nothing.
import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { Bench, ONESTRAND, Program } from '../e2e/program';
import { edit } from './cutting';
import { megabytes } from './figures';
import { Line } from './line';
import { loadNow, memoryOf, processWith } from './machine';
import { open, WHAT } from './rooms';
import { fetchRuns } from './runs';
import { screen } from './screening';
import { drawScreened, LARGE, makeLarge, makeScreened, ROLL } from './shelf';
import { Table } from './table';
import { weigh } from './weight';
import { browse } from './window';

const PARTS = ['screening', 'cutting', 'rooms', 'run', 'weight'] as const;
type Part = (typeof PARTS)[number];
const USAGE = `usage: ./bench page               all parts, some eight minutes
       ./bench page screening     one minute of film at 24 f/s and one at 18
       ./bench page cutting       edits at ${LARGE.pieces} pieces
       ./bench page rooms         opening a room on a film of ${LARGE.rolls} rolls
       ./bench page run           a run of 24 frames over HTTP
       ./bench page weight        what the page's code weighs`;

const DIST = fileURLToPath(new URL('../dist', import.meta.url));

function say(doing: string): void {
  process.stderr.write(`bench: ${doing}\n`);
}

function isPart(word: string): word is Part {
  return PARTS.some((part) => part === word);
}

/** Says what is measured, how busy the machine is, and then the figures. */
async function report(heading: string, measure: () => Promise<Table>): Promise<void> {
  const load = await loadNow();
  say(heading);
  const table = await measure();
  process.stdout.write(`${heading}\n${load}\n\n${String(table)}\n\n`);
}

interface Laid {
  readonly bench: Bench;
  readonly program: Program;
  readonly line: Line;
  readonly browser: Browser;
  /** The films to screen, by speed. */
  readonly screened: ReadonlyMap<number, string>;
}

async function layOut(bench: Bench, parts: readonly Part[]): Promise<Laid> {
  if (parts.includes('cutting') || parts.includes('rooms')) {
    say(`making a film of ${LARGE.rolls} rolls in ${bench.dir}`);
    await makeLarge(bench.shelf, bench.media);
  }
  const program = await Program.open(bench);
  const line = await Line.open(program.address);
  const screened = new Map<number, string>();
  const speeds = parts.includes('screening') ? [24, 18] : parts.includes('run') ? [24] : [];
  if (speeds.length > 0) {
    say(`drawing a scan of ${ROLL.frames} frames and bringing it in`);
    const scan = await drawScreened(bench.media);
    for (const speed of speeds) screened.set(speed, await makeScreened(line, scan, speed));
  }
  return { bench, program, line, browser: await browse(), screened };
}

async function measure(parts: readonly Part[], laid: Laid): Promise<void> {
  const { bench, line, browser, screened } = laid;
  for (const [speed, film] of parts.includes('screening') ? screened : []) {
    await report(`Screening one minute of a version at ${speed} f/s, pictures of 960 × 720.`, () =>
      screen(browser, line, film, speed),
    );
  }
  if (parts.includes('rooms')) {
    await report(`Opening a room, median of 10. Open is: ${WHAT}.`, () => open(browser, line));
  }
  if (parts.includes('cutting')) {
    await report(`Edits on a version of ${LARGE.pieces} pieces, from key to frame.`, () =>
      edit(browser, line),
    );
  }
  if (parts.includes('run')) {
    const film = screened.get(24) ?? '';
    await report('A run of frames over one kept-alive connection, warm.', () =>
      fetchRuns(line, film, join(bench.shelf, film)),
    );
  }
  if (parts.includes('weight')) await report('The page on the wire.', () => weigh(DIST));
}

async function memory({ bench, program }: Laid): Promise<Table> {
  const words = [ONESTRAND, 'open', bench.shelf, '--port', String(program.port)];
  const { now, most } = await memoryOf(await processWith(words));
  const table = new Table();
  table.told('resident now', megabytes(now));
  table.told('resident at its most', megabytes(most));
  return table;
}

async function main(words: readonly string[]): Promise<number> {
  const strange = words.find((word) => !isPart(word));
  if (strange !== undefined) {
    process.stderr.write(`bench: what is "${strange}"?\n${USAGE}\n`);
    return 2;
  }
  const parts = words.length > 0 ? words.filter(isPart) : [...PARTS];
  const bench = await Bench.make();
  // One that is broken off leaves nothing behind either.
  process.once('exit', () => rmSync(bench.dir, { recursive: true, force: true }));
  process.once('SIGINT', () => process.exit(130));
  let laid: Laid | null = null;
  try {
    laid = await layOut(bench, parts);
    await measure(parts, laid);
    const all = laid;
    await report('Memory of the program after all this.', () => memory(all));
    return 0;
  } finally {
    await laid?.browser.close();
    laid?.line.close();
    await laid?.program.stop();
  }
}

process.exitCode = await main(process.argv.slice(2)).catch((why: unknown) => {
  process.stderr.write(`bench: ${why instanceof Error ? (why.stack ?? why.message) : why}\n`);
  return 1;
});
