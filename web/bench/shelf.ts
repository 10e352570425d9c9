// The shelf of the benchmark: two films to screen, brought in through the page's
// own interface, and one of twenty rolls with a version of three hundred pieces.
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { command } from '../e2e/program';
import type { CutChange } from '$lib/api/wire';
import type { Line } from './line';
import { drawScan } from './scans';

const TITLE = 'The Ten-Past Boat';

/** The roll that is screened. */
export const ROLL = { name: 'R1', frames: 1500, file: 'screened.mkv' };
/** Pieces of the screened version, each out of another place of the roll. */
const PIECE = 60;

/** The film of twenty rolls. */
export const LARGE = {
  film: 'boat-of-twenty-rolls',
  rolls: 20,
  read: 3,
  frames: 3600,
  takes: 10,
  cut: 'v1',
  pieces: 300,
};
/** Each piece keeps so many frames and leaves so many for the joins and for trims. */
const KEPT = 24;
const APART = LARGE.frames / (LARGE.pieces / LARGE.read);

/** Draws what is screened. */
export async function drawScreened(media: string): Promise<string> {
  const file = join(media, ROLL.file);
  await drawScan(file, { width: 960, height: 720, rate: 24, frames: ROLL.frames, grain: 8 });
  return file;
}

/** A film to screen at a speed: the roll, and a version of one minute; gives its name. */
export async function makeScreened(line: Line, scan: string, speed: number): Promise<string> {
  const film = await line.newFilm({
    title: `${TITLE} ${speed}`,
    gauge: 'super8',
    speed: `${speed}`,
  });
  await line.bringIn(film, ROLL.name, scan);
  await line.change(film, { film_change: 'new_cut', cut: 'v1', usual_join: 'tape' });
  const pieces = (speed * 60) / PIECE;
  const changes = Array.from({ length: pieces }, (_, at): CutChange => {
    // Seven has no factor in common with eighteen or twenty-four: each piece comes once.
    const first = ((at * 7) % pieces) * PIECE;
    const piece = { kind: 'shot' as const, roll: ROLL.name, in: first, out: first + PIECE };
    return { change: 'insert', at, piece };
  });
  const cut_change: CutChange = { change: 'all', changes };
  await line.change(film, { film_change: 'change_cut', cut: 'v1', cut_change });
  return film;
}

function logOfAll(): string {
  const rows = ['roll,slate,take,in,out,size,move,direction,action,use,note'];
  const long = LARGE.frames / LARGE.takes;
  for (let roll = 1; roll <= LARGE.rolls; roll += 1) {
    for (let take = 0; take < LARGE.takes; take += 1) {
      const [scene, first] = [(roll - 1) * LARGE.takes + take + 1, take * long];
      const action = 'the boat comes in and the rope is thrown';
      rows.push(`R${roll},${scene},1,${first},${first + long},wide,still,,${action},yes,`);
    }
  }
  return `${rows.join('\n')}\n`;
}

function cutOfMany(): string {
  const rows = ['position,roll,in,out,slate,join,note'];
  const perRoll = LARGE.pieces / LARGE.read;
  for (let at = 0; at < LARGE.pieces; at += 1) {
    const place = (Math.floor(at / LARGE.read) * 37) % perRoll;
    const first = place * APART + (APART - KEPT) / 2;
    rows.push(`${at + 1},R${(at % LARGE.read) + 1},${first},${first + KEPT},,,`);
  }
  return `${rows.join('\n')}\n`;
}

/** Makes the film of twenty rolls: some read from small scans, the others on paper. */
export async function makeLarge(shelf: string, media: string): Promise<void> {
  const dir = join(shelf, LARGE.film);
  await command('new', dir, '--title', TITLE);
  for (let roll = 1; roll <= LARGE.rolls; roll += 1) {
    if (roll > LARGE.read) {
      await command('roll', 'paper', dir, `R${roll}`, '--frames', String(LARGE.frames));
      continue;
    }
    const scan = join(media, `small-${roll}.mkv`);
    const size = { width: 480, height: 360, rate: 18, frames: LARGE.frames };
    await drawScan(scan, { ...size, grain: 6 + roll });
    await command('roll', 'add', dir, `R${roll}`, scan, '--measured', '50ft0');
  }
  const [log, cut] = [join(media, 'log.csv'), join(media, 'cut.csv')];
  await writeFile(log, logOfAll());
  await writeFile(cut, cutOfMany());
  await command('log', 'import', dir, log);
  await command('cut', 'import', dir, cut, '--name', LARGE.cut, '--join', 'cement');
}
