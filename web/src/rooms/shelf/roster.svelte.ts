// The class roster of the shelf: what is asked, kept at each change, and the plan.
import { problemOf, Refused, type Server, told } from '$lib/api/server';
import type { Problem, RosterForm, ShelfRoster } from '$lib/api/wire';

/** Something that keeps the roster from being planned. */
export interface RosterProblem {
  readonly place: string;
  readonly message: string;
}

export class RosterDesk {
  /** What was kept last, and its plan. */
  now = $state.raw<ShelfRoster | null>(null);
  /** What stands in the form. */
  form = $state<RosterForm | null>(null);
  /** The request itself failed. */
  problem = $state.raw<Problem | null>(null);
  /** It is being kept and planned. */
  busy = $state(false);
  /** Forms that were kept before, newest at the end. */
  private before = $state.raw<readonly RosterForm[]>([]);
  private again = false;

  constructor(private readonly server: Server) {}

  get canPutBack(): boolean {
    return this.before.length > 0;
  }

  /** Everything that keeps it from being planned, each with its place. */
  get problems(): readonly RosterProblem[] {
    const details = this.now?.problem?.details as { problems?: RosterProblem[] } | null | undefined;
    return details?.problems ?? [];
  }

  async load(): Promise<void> {
    try {
      this.lay(await told(this.server.GET('/api/roster', {})));
      this.problem = null;
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  private lay(roster: ShelfRoster): void {
    this.now = roster;
    this.form = structuredClone(roster.form);
  }

  /** Keeps what stands in the form; nothing when nothing was changed. */
  async keep(): Promise<void> {
    if (!this.form || !this.now) return;
    // What is typed while an answer is on its way is kept after it.
    if (this.busy) {
      this.again = true;
      return;
    }
    const form = $state.snapshot(this.form);
    const was = this.now.form;
    if (JSON.stringify(form) === JSON.stringify(was)) return;
    if (await this.send(form)) this.before = [...this.before.slice(-19), was];
    if (this.again) {
      this.again = false;
      await this.keep();
    }
  }

  /** Puts back what was kept before the last change. */
  async putBack(): Promise<void> {
    const last = this.before.at(-1);
    if (!last || this.busy) return;
    this.form = structuredClone(last);
    if (await this.send(last)) this.before = this.before.slice(0, -1);
  }

  private async send(form: RosterForm): Promise<boolean> {
    this.busy = true;
    try {
      const body = { revision: this.now?.revision ?? 0, form };
      const kept = await told(this.server.PUT('/api/roster', { body }));
      this.now = kept;
      this.problem = null;
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      // Another window was first: what it kept is shown, and nothing is written over.
      if (why instanceof Refused && why.stale) {
        const refused = this.problem;
        await this.load();
        this.problem = refused;
        this.before = [];
      }
      return false;
    } finally {
      this.busy = false;
    }
  }
}

/** What is said of the nth step of the form, from 0. */
export function stepProblem(
  problems: readonly RosterProblem[],
  form: RosterForm,
  at: number,
): string | undefined {
  const name = form.steps[at]?.step ?? '';
  const is = (place: string) => place === `step ${at + 1}` || place.endsWith(`, ${name}`);
  // The same is said once, however many teams it is true of.
  const said = new Set(problems.filter((one) => is(one.place)).map((one) => one.message));
  return said.size > 0 ? [...said].join('; ') : undefined;
}

/** What is said of a place by its name: `sessions`, `the bench`. */
export function placeProblem(
  problems: readonly RosterProblem[],
  place: string,
): string | undefined {
  const found = problems.filter((one) => one.place === place);
  return found.length > 0 ? found.map((one) => one.message).join('; ') : undefined;
}

/** What stands at no field of the form. */
export function otherProblems(
  problems: readonly RosterProblem[],
  form: RosterForm,
): readonly RosterProblem[] {
  const steps = form.steps.map((_, at) => stepProblem(problems, form, at));
  const atStep = (one: RosterProblem) => steps.some((said) => said?.includes(one.message));
  const fields = ['sessions', ...form.things.map((thing) => `the ${thing.thing.trim()}`)];
  return problems.filter((one) => !atStep(one) && !fields.includes(one.place));
}

/** Minutes as `h:mm`. */
export function hours(minutes: number): string {
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}
