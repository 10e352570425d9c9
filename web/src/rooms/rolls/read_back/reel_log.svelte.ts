// What a scan of the cut reel would bring into the log of the bench, and the writing of it.
import { problemOf, type Server, told } from '$lib/api/server';
import type { FilmChange, Problem, Proof, ReelSeen, SeenStrip } from '$lib/api/wire';

/** The film that lies open, as far as this is concerned. */
export interface ReelDesk {
  readonly name: string;
  readonly film: { readonly revision: number } | null;
  change(change: FilmChange, seen: number): Promise<unknown>;
}

/** The film on the reel as the proof found it. */
export function stripsOf(proof: Pick<Proof, 'strips'>): SeenStrip[] {
  return proof.strips.map((span) => ({
    roll: span.roll,
    in: span.in,
    out: span.out,
    mirrored: span.mirrored,
    upside_down: span.upside_down,
  }));
}

export class ReelLog {
  seen = $state.raw<ReelSeen | null>(null);
  problem = $state.raw<Problem | null>(null);
  writing = $state(false);
  written = $state(false);

  constructor(
    private readonly server: Server,
    private readonly desk: ReelDesk,
    private readonly proof: Proof,
    private readonly scan: string,
  ) {}

  /** Asks what would be written; nothing is. */
  async look(): Promise<void> {
    const params = { path: { film: this.desk.name } };
    const body = { cut: this.proof.cut, film: stripsOf(this.proof) };
    try {
      this.seen = await told(this.server.POST('/api/films/{film}/bench/seen', { params, body }));
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  async write(): Promise<void> {
    const { seen } = this;
    if (!seen || this.writing) return;
    this.writing = true;
    this.problem = null;
    const film = stripsOf(this.proof);
    const write = { bench: 'seen', lines: seen.lines, scan: this.scan, film } as const;
    try {
      await this.desk.change(
        { film_change: 'at_the_bench', ...write },
        this.desk.film?.revision ?? 0,
      );
      this.written = true;
    } catch (why) {
      this.problem = problemOf(why);
    } finally {
      this.writing = false;
    }
  }
}

const counted = (count: number, one: string, many: string) =>
  count === 1 ? `1 ${one}` : `${count} ${many}`;

/** `12 acts were never ticked: 5 cuts, 5 joins and 2 others.` */
export function actsOf({
  acts: [cuts = 0, joins = 0, others = 0],
}: Pick<ReelSeen, 'acts'>): string {
  const all = cuts + joins + others;
  const named = [
    cuts > 0 ? counted(cuts, 'cut', 'cuts') : '',
    joins > 0 ? counted(joins, 'join', 'joins') : '',
    others > 0 ? counted(others, 'other', 'others') : '',
  ].filter((words) => words !== '');
  const list =
    named.length > 1 ? `${named.slice(0, -1).join(', ')} and ${named.at(-1)}` : named.join('');
  return `${counted(all, 'act was', 'acts were')} never ticked: ${list}.`;
}

/** `The reel has 9 runs of film, the log of the bench has 4.` */
export function runsOf({ strips: [shown = 0, logged = 0] }: Pick<ReelSeen, 'strips'>): string {
  return `The reel has ${counted(shown, 'run', 'runs')} of film, the log of the bench has ${logged === 0 ? 'none' : logged}.`;
}
