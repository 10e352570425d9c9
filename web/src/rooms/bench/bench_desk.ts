// What stands between the bench and the program.
import type {
  BenchDocument,
  BenchSetUp,
  BenchWrite,
  Happened,
  Meaning,
  StripHistory,
} from './bench_types';

/** What the room needs of the film on the bench. */
export interface BenchDesk {
  /** Names the place where unsent ticks are kept. */
  readonly film: string;
  load(): Promise<BenchDocument>;
  /** Writes one thing down, once for each key however often it is sent. */
  write(key: string, write: BenchWrite, revision: number): Promise<void>;
  /** Keeps how the user's bench is; a tablet cannot. */
  setUp?(bench: BenchSetUp, revision: number): Promise<void>;
  /** What a report would mean; nothing is written. */
  meaning(lines: number, happened: readonly Happened[]): Promise<Meaning>;
  history(roll: string, frame: number): Promise<StripHistory>;
  /** Nobody answered. */
  notReached(): void;
}
