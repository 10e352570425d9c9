// A form of cues that is to be laid: looked at first, with every problem at once.
import { problemOf, type Server, told } from '$lib/api/server';
import type { components } from '$lib/api/schema';
import type { Problem } from '$lib/api/wire';

export type CuesImported = components['schemas']['CuesImported'];

/** One thing to put right in the file. */
export interface FormProblem {
  readonly line: number;
  readonly column: string;
  readonly message: string;
}

function isProblem(value: unknown): value is FormProblem {
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
export function problemsIn(problem: Problem | null): FormProblem[] {
  const details: unknown = problem?.details;
  if (typeof details !== 'object' || details === null || !('problems' in details)) return [];
  const { problems } = details;
  return Array.isArray(problems) ? problems.filter(isProblem) : [];
}

export class CueForm {
  name = $state('');
  /** What it would lay, or has laid. */
  told = $state.raw<CuesImported | null>(null);
  problem = $state.raw<Problem | null>(null);
  busy = $state(false);
  kept = $state(false);
  private text = '';

  constructor(
    private readonly server: Server,
    private readonly film: string,
  ) {}

  /** Says what the form would lay in a version; nothing is laid. */
  async take(file: Pick<File, 'name' | 'text'>, cut: string): Promise<void> {
    this.name = file.name;
    this.kept = false;
    this.text = await file.text();
    await this.send(cut, false);
  }

  /** Lays it; one step back takes it all out again. */
  async keep(cut: string): Promise<boolean> {
    this.kept = await this.send(cut, true);
    return this.kept;
  }

  putAway(): void {
    this.name = '';
    this.text = '';
    this.told = null;
    this.problem = null;
    this.kept = false;
  }

  private async send(cut: string, keep: boolean): Promise<boolean> {
    this.problem = null;
    this.told = null;
    this.busy = true;
    try {
      this.told = await told(
        this.server.POST('/api/films/{film}/dub/cues', {
          params: { path: { film: this.film }, query: { cut, name: this.name, keep } },
          body: this.text,
          headers: { 'Content-Type': 'text/csv' },
          bodySerializer: (body: string) => body,
        }),
      );
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    } finally {
      this.busy = false;
    }
  }
}
