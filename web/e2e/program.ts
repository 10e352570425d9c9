// The program itself, as a person would start it: on a shelf of its own, with a
// state folder and a home of its own, so that no test sees what another left.

import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdir, mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const checkout = fileURLToPath(new URL('../..', import.meta.url));

/** The program that is tried: `ONESTRAND`, or what `cargo build -p onestrand` has made. */
export const ONESTRAND =
  process.env['ONESTRAND'] ??
  join(process.env['CARGO_TARGET_DIR'] ?? join(checkout, 'target'), 'debug', 'onestrand');

/** Fails where the program carries another page than the one that was built last. */
export async function expectFresh(): Promise<void> {
  if (process.env['ONESTRAND']) return;
  const [page, program] = await Promise.all([
    readFile(join(checkout, 'web', 'dist', 'index.html'), 'utf8'),
    readFile(ONESTRAND),
  ]);
  const code = /assets\/index-[\w-]+\.js/.exec(page)?.[0];
  if (!code || !program.includes(code)) {
    throw new Error('the program carries an older page: npm run build && cargo build -p onestrand');
  }
}

/** How long it may take to open its door. Unit: milliseconds. */
const DOOR = 20_000;

async function freePort(): Promise<number> {
  const asked = createServer().listen(0, '127.0.0.1');
  await once(asked, 'listening');
  const address = asked.address();
  asked.close();
  await once(asked, 'close');
  if (typeof address !== 'object' || address === null) throw new Error('no port is free');
  return address.port;
}

/** A temporary folder with what one run of the program needs. */
export class Bench {
  private constructor(
    readonly dir: string,
    readonly shelf: string,
    readonly media: string,
    readonly home: string,
  ) {}

  static async make(): Promise<Bench> {
    const dir = await mkdtemp(join(tmpdir(), 'onestrand-e2e-'));
    const bench = new Bench(dir, join(dir, 'shelf'), join(dir, 'scans'), join(dir, 'home'));
    for (const one of [bench.shelf, bench.media, bench.home]) await mkdir(one);
    return bench;
  }

  /** Another place to remember who was let in: that of a machine set up anew. */
  state(name = 'state'): string {
    return join(this.dir, name);
  }

  async clear(): Promise<void> {
    await rm(this.dir, { recursive: true, force: true });
  }
}

export class Program {
  private child: ChildProcess | null = null;
  private opened = '';

  private constructor(
    readonly bench: Bench,
    readonly port: number,
  ) {
    // A run that is broken off leaves nobody behind.
    process.once('exit', () => this.child?.kill('SIGKILL'));
  }

  static async open(bench: Bench): Promise<Program> {
    const program = new Program(bench, await freePort());
    await program.again();
    return program;
  }

  /** Where the page is, without any code. */
  get origin(): string {
    return `http://127.0.0.1:${this.port}`;
  }

  /** The printed address, whose code lets one browser in. */
  get address(): string {
    return this.opened;
  }

  /** Starts it on the same port, with what it remembered unless another state is named. */
  async again(state = this.bench.state()): Promise<void> {
    if (this.child) throw new Error('the program runs already');
    const { shelf, media, home } = this.bench;
    const child = spawn(
      ONESTRAND,
      [
        ...['open', shelf, '--port', String(this.port), '--no-browser', '--media', media],
        // Where nothing but this machine can ask.
        ...['--tablet-at', '127.0.0.1'],
      ],
      {
        env: { PATH: process.env['PATH'], HOME: home, XDG_STATE_HOME: state },
        stdio: ['ignore', 'pipe', 'pipe'],
      },
    );
    this.child = child;
    this.opened = await doorOf(child);
  }

  /** Ends it as a power cut would. */
  async kill(): Promise<void> {
    await this.end('SIGKILL');
  }

  /** Ends it as its user would, with Ctrl-C. */
  async stop(): Promise<void> {
    await this.end('SIGINT');
  }

  private async end(signal: 'SIGKILL' | 'SIGINT'): Promise<void> {
    const { child } = this;
    if (!child) return;
    this.child = null;
    if (child.exitCode !== null || child.signalCode !== null) return;
    const gone = once(child, 'exit');
    child.kill(signal);
    await gone;
  }
}

/** The line that it prints once it answers. */
function doorOf(child: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = '';
    const fail = (why: string) => reject(new Error(`the program ${why}: ${said}`));
    const timer = setTimeout(() => fail('does not open its door'), DOOR);
    const hear = (words: Buffer) => {
      said += words.toString();
      const address = /^open (http\S+)$/m.exec(said)?.[1];
      if (!address) return;
      clearTimeout(timer);
      resolve(address);
    };
    child.stdout?.on('data', hear);
    child.stderr?.on('data', hear);
    child.once('error', (why) => fail(`cannot be started (${why.message})`));
    child.once('exit', (code) => fail(`ended with ${code}`));
  });
}

/** Runs one command of the program to its end. */
export async function command(...words: readonly string[]): Promise<string> {
  const child = spawn(ONESTRAND, words, { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stdout.on('data', (more: Buffer) => (said += more.toString()));
  child.stderr.on('data', (more: Buffer) => (said += more.toString()));
  const [code] = (await once(child, 'close')) as [number | null];
  if (code !== 0) throw new Error(`onestrand ${words.join(' ')} ended with ${code}: ${said}`);
  return said;
}
