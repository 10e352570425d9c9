// The single things that are wrong, as the program lists them with a refusal.
import type { Problem } from '$lib/api/wire';

export interface ProblemLine {
  /** Line of the file, where there is one. */
  readonly line: number | null;
  /** Column, setup or scene. */
  readonly place: string;
  readonly message: string;
}

/** Everything that is wrong, in the order of the lines; nothing where nothing is listed. */
export function problemLines(problem: Problem | null): ProblemLine[] {
  const listed = fieldOf(problem?.details, 'problems');
  if (!Array.isArray(listed)) return [];
  return listed.map((one: unknown) => {
    const line = fieldOf(one, 'line');
    return {
      line: typeof line === 'number' ? line : null,
      place: textOf(one, 'column') || textOf(one, 'place'),
      message: textOf(one, 'message'),
    };
  });
}

function fieldOf(from: unknown, name: string): unknown {
  if (typeof from !== 'object' || from === null) return undefined;
  return new Map<string, unknown>(Object.entries(from)).get(name);
}

function textOf(from: unknown, name: string): string {
  const found = fieldOf(from, name);
  return typeof found === 'string' ? found : '';
}
