// What every test of the page begins with: the program on a shelf of its own and
// a browser that was let in. Whatever is asked of another machine, thrown, or
// refused by the content policy fails the test, whatever else it tried.

import { copyFile, cp, mkdir, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Locator, type Page, test as plain } from '@playwright/test';
import { Bench, command, expectFresh, Program } from './program';

/**
 * 681 film frames in 686 pictures, five of which stand twice in the first take, at 18
 * a second in 16 takes; where they begin in the file stands in `shot_changes.csv`.
 */
export const SCAN = fileURLToPath(
  new URL('../../tests/media/video/camera_roll_b.mp4', import.meta.url),
);
export const TITLE = 'The Ten-Past Boat';

/** What stands on the shelf when the program is started. */
export type OnShelf = 'nothing' | 'roll' | 'cut' | 'long cut';

/** Takes that the prepared films have by name. */
const LOG = `roll,slate,take,in,out,size,move,direction,action,use,note
R1,1,1,0,55,wide,still,,the landing,yes,
R1,1,2,55,103,wide,still,,the landing once more,maybe,
R1,2,1,103,143,near,still,,she looks up,yes,too dark
${[143, 203, 253, 323, 383, 423, 457, 517, 529, 585, 596, 618, 631, 681]
  .map((first, at, all) => (all[at + 1] ? `R1,,,${first},${all[at + 1]},,,,,,\n` : ''))
  .join('')}`;
/** Three pieces in three takes: with tape it can be made. */
const CUT = `position,roll,in,out,slate,join,note
1,R1,10,50,1-T1,,the landing
2,R1,110,140,2-T1,,she looks up
3,R1,65,100,1-T2,,the landing once more
`;

/** Nine pieces, 30 to 58 frames each: a projector can be followed through eight cuts. */
const LONG_CUT = `position,roll,in,out,slate,join,note
${[
  [4, 54],
  [60, 100],
  [106, 142],
  [146, 200],
  [206, 250],
  [256, 314],
  [326, 380],
  [386, 420],
  [462, 512],
]
  .map(([first, end], at) => `${at + 1},R1,${first},${end},,,\n`)
  .join('')}`;

async function makeFilm(dir: string, with_: OnShelf): Promise<void> {
  await command('new', dir, '--title', TITLE);
  await command('roll', 'add', dir, 'R1', SCAN, '--measured', '9ft33');
  if (with_ !== 'cut' && with_ !== 'long cut') return;
  const [log, cut] = [`${dir}-log.csv`, `${dir}-cut.csv`];
  const pieces = with_ === 'cut' ? CUT : LONG_CUT;
  await Promise.all([writeFile(log, LOG), writeFile(cut, pieces)]);
  await command('log', 'import', dir, log);
  await command('cut', 'import', dir, cut, '--name', 'v1');
}

/** Films are made once a worker and copied for each test. */
export class Films {
  private readonly made = new Map<OnShelf, Promise<string>>();

  constructor(private readonly dir: string) {}

  async copyTo(shelf: string, with_: OnShelf, folder = 'boat'): Promise<void> {
    if (with_ === 'nothing') return;
    let making = this.made.get(with_);
    if (!making) {
      const dir = join(this.dir, with_.replace(' ', '_'));
      making = makeFilm(dir, with_).then(() => dir);
      this.made.set(with_, making);
    }
    await mkdir(shelf, { recursive: true });
    await cp(await making, join(shelf, folder), { recursive: true });
  }
}

export interface FilmFixtures {
  onShelf: OnShelf;
  bench: Bench;
  program: Program;
  /** Console lines that a test means to cause. */
  meant: RegExp[];
}

export const test = plain.extend<FilmFixtures, { films: Films }>({
  films: [
    async ({}, use) => {
      await expectFresh();
      const bench = await Bench.make();
      await use(new Films(bench.dir));
      await bench.clear();
    },
    { scope: 'worker' },
  ],
  onShelf: ['nothing', { option: true }],
  meant: [[], { option: true }],

  bench: async ({ films, onShelf }, use) => {
    const bench = await Bench.make();
    await copyFile(SCAN, join(bench.media, 'camera_roll_b.mp4'));
    await films.copyTo(bench.shelf, onShelf);
    await use(bench);
    await bench.clear();
  },

  program: async ({ bench }, use) => {
    const program = await Program.open(bench);
    await use(program);
    await program.stop();
  },

  baseURL: async ({ program }, use) => use(program.origin),

  context: async ({ context, program, meant }, use) => {
    const [outside, faults]: [string[], string[]] = [[], []];
    context.on('request', (request) => {
      const url = new URL(request.url());
      const own = url.host === `127.0.0.1:${program.port}`;
      if (!own && url.protocol !== 'blob:' && url.protocol !== 'data:') outside.push(url.href);
    });
    context.on('weberror', (error) => faults.push(`thrown: ${error.error().message}`));
    context.on('console', (line) => {
      // A request that is refused or not answered is logged by the browser itself.
      const own = line.text().startsWith('Failed to load resource');
      const known = own || meant.some((pattern) => pattern.test(line.text()));
      if (line.type() === 'error' && !known) faults.push(line.text());
    });
    await use(context);
    plain.expect(outside, 'asked of another machine').toEqual([]);
    plain.expect(faults, 'thrown in the page, or said on its console').toEqual([]);
  },

  page: async ({ page, program }, use) => {
    await page.goto(program.address);
    await use(page);
  },
});

export { expect } from '@playwright/test';

/** The slip of paper with these words at its head. */
export function slip(on: Page | Locator, heading: RegExp | string): Locator {
  const page = 'page' in on ? on.page() : on;
  return on.locator('section.slip').filter({ has: page.getByRole('heading', { name: heading }) });
}

/** Where the film of the prepared shelf lies. */
export const FILM = '/film/boat';
