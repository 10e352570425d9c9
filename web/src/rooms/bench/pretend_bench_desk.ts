// A bench for the tests and the stories: the program's part is played here.
import { NotReached, Refused } from '$lib/api/server';
import type { BenchDesk } from './bench_desk';
import type {
  BenchDocument,
  BenchSetUp,
  BenchWrite,
  Happened,
  Meaning,
  StripHistory,
} from './bench_types';
import { foreseen } from './foreseen';

export class PretendBenchDesk implements BenchDesk {
  readonly film = 'boat';
  /** What was written, in order, with its keys. */
  readonly written: { key: string; write: BenchWrite }[] = [];
  readonly asked: (readonly Happened[])[] = [];
  /** Nobody answers. */
  gone = false;
  /** The write is carried out, and its answer is lost. */
  losesAnswer = false;
  lost = 0;
  private readonly keys = new Set<string>();

  constructor(public bench: BenchDocument) {}

  load(): Promise<BenchDocument> {
    return this.gone ? Promise.reject(new NotReached('gone')) : Promise.resolve(this.bench);
  }

  write(key: string, write: BenchWrite): Promise<void> {
    if (this.gone) return Promise.reject(new NotReached('gone'));
    if (!this.keys.has(key)) {
      if ('lines' in write && write.lines !== this.bench.lines) return Promise.reject(stale());
      this.keys.add(key);
      this.written.push({ key, write });
      this.carryOut(key, write);
    }
    if (!this.losesAnswer) return Promise.resolve();
    this.losesAnswer = false;
    return Promise.reject(new NotReached('lost'));
  }

  meaning(_: number, happened: readonly Happened[]): Promise<Meaning> {
    this.asked.push(happened);
    const on = this.bench.on_the_bench;
    const before = on?.frames ?? 0;
    const first = happened[0];
    if (first?.happened === 'torn' && first.out > 3600) return Promise.reject(beyond());
    const gone = first?.happened === 'cut' ? 1 : first?.happened === 'torn' ? 3 : 0;
    return Promise.resolve({
      changes: gone > 0,
      picture: gone > 0 ? [`shot 7 is ${gone} frames shorter, at its head`] : [],
      sound: gone > 0 ? [`the splash comes ${gone} frames earlier`] : [],
      work: ['join 6 | 7 is made as planned'],
      frames_before: before,
      frames_after: before - gone,
    });
  }

  history(roll: string, frame: number): Promise<StripHistory> {
    return Promise.resolve({
      frame: `${roll}·${frame}`,
      now: 'on the take-up reel, in shot 13',
      events: [
        { line: 12, at: '2026-03-03T10:00:00Z', words: 'joined in cement' },
        { line: 40, at: '2026-11-25T15:00:00Z', words: 'opened; R2·2485 to 2486 lost' },
      ],
      words: 'joined 3 March in cement, opened, frame 2485–2486 lost',
    });
  }

  setUp(bench: BenchSetUp): Promise<void> {
    if (this.gone) return Promise.reject(new NotReached('gone'));
    this.bench = { ...this.bench, set_up: bench, revision: this.bench.revision + 1 };
    return Promise.resolve();
  }

  notReached(): void {
    this.lost += 1;
  }

  /** Somebody else has ticked. */
  tickElsewhere(): void {
    this.carryOut('elsewhere', { bench: 'tick', lines: this.bench.lines });
  }

  private carryOut(key: string, write: BenchWrite): void {
    const { bench } = this;
    const revision = bench.revision + 1;
    if (write.bench === 'tick') {
      const ticked = foreseen(bench, [{ key, write }], new Date('2026-11-26T10:00:00Z'));
      this.bench = { ...ticked, revision };
    } else {
      this.bench = { ...bench, lines: bench.lines + 1, revision };
    }
  }
}

function stale(): Refused {
  const problem = {
    code: 'bench.lines',
    message: 'something was written at the bench since this was shown',
    hint: 'look at the next act and tick it',
    details: null,
  };
  return new Refused(problem, 409);
}

function beyond(): Refused {
  const problem = {
    code: 'bench.cannot',
    message: 'R2·3600 is beyond the end of the roll',
    hint: 'look which frames are meant',
    details: null,
  };
  return new Refused(problem, 409);
}
