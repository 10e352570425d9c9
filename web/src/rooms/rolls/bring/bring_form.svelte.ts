// A roll that is to be brought in: from which files, and what is known of it.
import { problemOf, type Server, told } from '$lib/api/server';
import type { BringIn, Film, Job, Problem, ShelfForm } from '$lib/api/wire';
import { isRollName } from '$lib/film/frame_name';
import { parseSpeed } from '$lib/film/speed';
import { nextRollName } from '../words_of_roll';

/** A film file, or a folder of pictures. */
export interface ScanFile {
  readonly path: string;
  readonly name: string;
  readonly bytes: number | null;
}

export class BringForm {
  files = $state.raw<readonly ScanFile[]>([]);
  roll = $state('');
  speed = $state('');
  base = $state<'triacetate' | 'polyester' | 'not-known'>('not-known');
  fit = $state<'project' | 'scan-only' | 'never-cut'>('project');
  measured = $state('');
  /** Whether several files are one roll, or each is a roll of its own. */
  meant = $state<'one' | 'each'>('one');
  problem = $state.raw<Problem | null>(null);
  sending = $state(false);

  readonly #taken: readonly string[];
  readonly gauge: string;

  /** @param coming names of rolls that are on their way. */
  constructor(film: Film, coming: readonly string[]) {
    this.#taken = [...film.rolls.map((roll) => roll.roll), ...coming];
    this.gauge = film.gauge.gauge;
    this.roll = nextRollName(this.#taken);
    this.speed = film.speed;
  }

  has(path: string): boolean {
    return this.files.some((file) => file.path === path);
  }

  /** Lays a file behind the others, or takes it away again. */
  toggle(file: ScanFile): void {
    this.files = this.has(file.path)
      ? this.files.filter((each) => each.path !== file.path)
      : [...this.files, file];
  }

  /** Moves a file one place along the roll. */
  move(at: number, by: 1 | -1): void {
    const [one, other] = [this.files[at], this.files[at + by]];
    if (!one || !other) return;
    this.files = this.files.map((each, place) =>
      place === at ? other : place === at + by ? one : each,
    );
  }

  /** What is wrong with the name; null when it will do. */
  get nameProblem(): string | null {
    const name = this.roll.trim();
    if (!isRollName(name)) return 'A roll has a short name of letters and figures, such as R4.';
    if (this.#taken.some((taken) => taken.toUpperCase() === name.toUpperCase())) {
      return `There is a roll ${name} already.`;
    }
    return null;
  }

  get speedProblem(): string | null {
    return parseSpeed(this.speed) ? null : 'Frames a second, such as 18, 50/3 or 24.';
  }

  /** Whether each file is a roll of its own: a shelf that is read in one go. */
  get each(): boolean {
    return this.meant === 'each' && this.files.length > 1;
  }

  get canSend(): boolean {
    const named = this.each || !this.nameProblem;
    return this.files.length > 0 && named && !this.speedProblem && !this.sending;
  }

  /** The name that each file gets: its own where that names a roll and is free. */
  get names(): string[] {
    const taken = [...this.#taken];
    return this.files.map((file) => {
      const own = file.name.replace(/\.[^.]*$/, '');
      const free = !taken.some((name) => name.toUpperCase() === own.toUpperCase());
      const name = isRollName(own) && free ? own : nextRollName(taken);
      taken.push(name);
      return name;
    });
  }

  get body(): BringIn {
    return {
      roll: this.roll.trim(),
      files: this.files.map((file) => file.path),
      gauge: this.gauge,
      film_speed: this.speed.trim(),
      base: this.base,
      fit: this.fit,
      measured: this.measured.trim() || null,
    };
  }

  get shelf(): ShelfForm {
    const { names, body } = this;
    return {
      scans: this.files.map((file, at) => ({ file: file.path, roll: names[at] ?? '' })),
      gauge: body.gauge ?? null,
      film_speed: body.film_speed ?? null,
      base: this.base,
      fit: this.fit,
    };
  }

  /** Begins to read each file as a roll of its own; null where all of it was refused. */
  async sendEach(server: Server, film: string): Promise<Job[] | null> {
    if (!this.canSend) return null;
    this.sending = true;
    this.problem = null;
    try {
      const params = { path: { film } };
      return await told(server.POST('/api/films/{film}/shelf', { params, body: this.shelf }));
    } catch (why) {
      this.problem = problemOf(why);
      return null;
    } finally {
      this.sending = false;
    }
  }

  /** Begins to bring the roll in; null where it was refused. */
  async send(server: Server, film: string): Promise<Job | null> {
    if (!this.canSend) return null;
    this.sending = true;
    this.problem = null;
    try {
      const params = { path: { film } };
      return await told(server.POST('/api/films/{film}/rolls', { params, body: this.body }));
    } catch (why) {
      this.problem = problemOf(why);
      return null;
    } finally {
      this.sending = false;
    }
  }
}
