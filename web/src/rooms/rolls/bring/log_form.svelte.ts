// A log or camera report of somebody else's that is to be brought in: looked at
// first, with every problem at once, and kept when one says so.
import { problemOf, type Server, told } from '$lib/api/server';
import type { LogImported, Problem } from '$lib/api/wire';

export type CountedIn = '' | 'frames' | 'feet' | 'seconds';

export const COUNTED: readonly { readonly value: CountedIn; readonly words: string }[] = [
  { value: '', words: 'as it says' },
  { value: 'frames', words: 'frames' },
  { value: 'feet', words: 'feet' },
  { value: 'seconds', words: 'seconds' },
];

/** One thing to put right in the file. */
export interface LogProblem {
  readonly line: number;
  readonly column: string;
  readonly message: string;
}

function isProblem(value: unknown): value is LogProblem {
  return (
    typeof value === 'object' &&
    value !== null &&
    'line' in value &&
    typeof value.line === 'number' &&
    'column' in value &&
    typeof value.column === 'string' &&
    'message' in value &&
    typeof value.message === 'string'
  );
}

/** What is to be put right, line by line; none where the refusal is of another kind. */
export function problemsOf(problem: Problem | null): LogProblem[] {
  const details: unknown = problem?.details;
  if (typeof details !== 'object' || details === null || !('problems' in details)) return [];
  const { problems } = details;
  return Array.isArray(problems) ? problems.filter(isProblem) : [];
}

export class LogForm {
  name = $state('');
  text = $state('');
  roll = $state('');
  counted = $state<CountedIn>('');
  /** What it would bring in, or has brought in. */
  told = $state.raw<LogImported | null>(null);
  problem = $state.raw<Problem | null>(null);
  kept = $state(false);

  constructor(
    private readonly server: Server,
    private readonly film: string,
  ) {}

  async take(file: Pick<File, 'name' | 'text'>): Promise<void> {
    this.name = file.name;
    this.text = await file.text();
    await this.look();
  }

  /** Says what the log would bring in; nothing is kept. */
  look(): Promise<boolean> {
    return this.send(false);
  }

  async keep(): Promise<boolean> {
    this.kept = await this.send(true);
    return this.kept;
  }

  private async send(keep: boolean): Promise<boolean> {
    if (this.text === '') return false;
    this.problem = null;
    this.told = null;
    const { name, roll, counted } = this;
    const query = { name, keep, roll: roll.trim(), counted };
    try {
      this.told = await told(
        this.server.POST('/api/films/{film}/log', {
          params: { path: { film: this.film }, query },
          body: this.text,
          headers: { 'Content-Type': 'text/csv' },
          bodySerializer: (body: string) => body,
        }),
      );
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    }
  }
}
