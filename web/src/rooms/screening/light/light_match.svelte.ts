// Shots matched in light: frames chosen, the same things dragged on them, what is solved.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { Film, FilmChange, GradingCard, Kept, LightAsked, LightSolved } from '$lib/api/wire';

export type Patch = LightAsked['patches'][number];
export type ShotSolved = LightSolved['shots'][number];

export interface LightDesk {
  readonly film: Film | null;
  gradingCard(): Promise<GradingCard>;
  solveLight(body: LightAsked): Promise<LightSolved>;
  decisionList(): Promise<Blob>;
  gradingOnPaper(cut: string): Promise<Blob>;
  change(change: FilmChange, seen: number): Promise<Kept>;
  undo(): Promise<Kept>;
}

/** A frame that was chosen to be matched. */
export interface Chosen {
  readonly roll: string;
  readonly frame: number;
}

export interface Place {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** What a patch's sides are counted in: ten-thousandths of the picture's sides. */
export const PARTS = 10_000;
/** The least side of a patch. */
const LEAST = 100;

export const nameOf = (one: Chosen) => `${one.roll}·${one.frame}`;

/** A rectangle between two corners, however it was dragged; null where it is too small. */
export function placeBetween(
  a: readonly [number, number],
  b: readonly [number, number],
): Place | null {
  const inside = (share: number) => Math.min(1, Math.max(0, share));
  const side = (one: number, other: number) => {
    const from = Math.round(Math.min(inside(one), inside(other)) * PARTS);
    const to = Math.round(Math.max(inside(one), inside(other)) * PARTS);
    return { from, length: to - from };
  };
  const across = side(a[0], b[0]);
  const down = side(a[1], b[1]);
  if (across.length < LEAST || down.length < LEAST) return null;
  return { left: across.from, top: down.from, width: across.length, height: down.length };
}

/** A rectangle moved or made larger by keys; it stays in the picture. */
export function nudged(place: Place, across: number, down: number, grows: boolean): Place {
  const within = (value: number, least: number, most: number) =>
    Math.min(Math.max(value, least), most);
  if (grows) {
    return {
      ...place,
      width: within(place.width + across, LEAST, PARTS - place.left),
      height: within(place.height + down, LEAST, PARTS - place.top),
    };
  }
  return {
    ...place,
    left: within(place.left + across, 0, PARTS - place.width),
    top: within(place.top + down, 0, PARTS - place.height),
  };
}

/** `+5`, `−3`, `0`. */
export function pointsWords(points: number): string {
  if (points === 0) return '0';
  return points > 0 ? `+${points}` : `−${Math.abs(points)}`;
}

export class LightMatch {
  chosen = $state.raw<readonly Chosen[]>([]);
  patches = $state.raw<readonly Patch[]>([]);
  /** The thing that is dragged next. */
  thing = $state('thing 1');
  /** The frame whose shot keeps its light; the first when none is said. */
  held = $state('');
  reason = $state('');
  card = $state.raw<GradingCard | null>(null);
  solved = $state.raw<LightSolved | null>(null);
  problem = $state<string | null>(null);
  /** What was kept last, told once. */
  kept = $state('');
  private asked = 0;
  private seen = 0;

  constructor(private readonly desk: LightDesk) {}

  /** Opened with a frame on the screen. */
  async begin(here: Chosen | null): Promise<void> {
    if (this.chosen.length === 0 && here) this.choose(here);
    await this.load();
  }

  private async load(): Promise<void> {
    try {
      this.seen = this.desk.film?.revision ?? 0;
      this.card = await this.desk.gradingCard();
    } catch (why) {
      this.problem = problemWords(problemOf(why));
    }
  }

  choose(one: Chosen): void {
    if (this.chosen.some((other) => nameOf(other) === nameOf(one))) return;
    this.chosen = [...this.chosen, one];
  }

  leaveOut(one: Chosen): void {
    this.chosen = this.chosen.filter((other) => nameOf(other) !== nameOf(one));
    this.patches = this.patches.filter((patch) => nameOf(patch) !== nameOf(one));
    if (this.held === nameOf(one)) this.held = '';
  }

  /** Another frame of the same shot, where the thing is seen better. */
  step(one: Chosen, by: number): void {
    const roll = this.desk.film?.rolls.find((head) => head.roll === one.roll);
    const frame = Math.min(Math.max(0, one.frame + by), (roll?.frames ?? 1) - 1);
    const moved = { ...one, frame };
    if (this.chosen.some((other) => nameOf(other) === nameOf(moved))) return;
    this.chosen = this.chosen.map((other) => (nameOf(other) === nameOf(one) ? moved : other));
    this.patches = this.patches.map((patch) =>
      nameOf(patch) === nameOf(one) ? { ...patch, frame } : patch,
    );
    if (this.held === nameOf(one)) this.held = nameOf(moved);
  }

  get things(): readonly string[] {
    return [...new Set([...this.patches.map((patch) => patch.thing), this.thing.trim()])].filter(
      Boolean,
    );
  }

  /** A new thing under a name of its own; it is renamed by typing over it. */
  anotherThing(): void {
    let number = this.things.length + 1;
    while (this.things.includes(`thing ${number}`)) number += 1;
    this.thing = `thing ${number}`;
  }

  patch(one: Chosen, thing: string): Patch | undefined {
    return this.patches.find((patch) => nameOf(patch) === nameOf(one) && patch.thing === thing);
  }

  /** The thing lies here on this frame, in the place of where it lay. */
  put(one: Chosen, place: Place): void {
    const thing = this.thing.trim();
    if (!thing) return;
    const others = this.patches.filter((patch) => patch !== this.patch(one, thing));
    this.patches = [...others, { thing, roll: one.roll, frame: one.frame, ...place }];
  }

  takeOff(one: Chosen): void {
    const gone = this.patch(one, this.thing.trim());
    this.patches = this.patches.filter((patch) => patch !== gone);
  }

  get request(): LightAsked {
    const held = this.chosen.find((one) => nameOf(one) === this.held) ?? this.chosen[0];
    const has = held && this.patches.some((patch) => nameOf(patch) === nameOf(held));
    return { patches: [...this.patches], held: has ? { ...held } : null };
  }

  /** Whether a thing is seen in two frames, so that there is something to match. */
  get canSolve(): boolean {
    const frames = (thing: string) => this.patches.filter((p) => p.thing === thing).length;
    return this.things.some((thing) => frames(thing) > 1);
  }

  /** Asks anew; of several answers on their way only the last counts. */
  async ask(): Promise<void> {
    const mine = ++this.asked;
    if (!this.canSolve) {
      this.solved = null;
      this.problem = null;
      return;
    }
    try {
      const solved = await this.desk.solveLight(this.request);
      if (mine !== this.asked) return;
      this.solved = solved;
      this.problem = null;
    } catch (why) {
      if (mine !== this.asked) return;
      this.solved = null;
      this.problem = problemWords(problemOf(why));
    }
  }

  /** The shot that a frame lies in, as it was solved. */
  shotOf(one: Chosen): ShotSolved | undefined {
    return this.solved?.shots.find(
      (shot) => shot.roll === one.roll && shot.in <= one.frame && one.frame < shot.out,
    );
  }

  /** Shots with points, as they would be kept. */
  get toKeep() {
    const shots = this.solved?.shots ?? [];
    return shots.flatMap(({ roll, in: first, out, points }) => {
      const [red, green, blue] = points ?? [];
      if (red === undefined || green === undefined || blue === undefined) return [];
      return [{ roll, in: first, out, red, green, blue, reason: this.reason.trim() }];
    });
  }

  async keep(): Promise<void> {
    const shots = this.toKeep;
    if (shots.length === 0) return;
    const to = { what: 'keep' as const, shots, patches: [...this.patches] };
    await this.carryOut({ film_change: 'light', to }, `Kept: the light of ${shots.length} shots.`);
  }

  async strike(shot: NonNullable<GradingCard['shots']>[number]): Promise<void> {
    const { roll, in: first, out } = shot;
    const to = { what: 'strike' as const, roll, in: first, out };
    await this.carryOut(
      { film_change: 'light', to },
      `${roll}·${first} has its own light no more.`,
    );
  }

  async undo(): Promise<void> {
    try {
      await this.desk.undo();
      this.kept = 'Taken back.';
      await this.load();
    } catch (why) {
      this.problem = problemWords(problemOf(why));
    }
  }

  private async carryOut(change: FilmChange, words: string): Promise<void> {
    try {
      await this.desk.change(change, this.seen);
      this.kept = words;
      this.problem = null;
      await this.load();
    } catch (why) {
      this.problem = problemWords(problemOf(why));
    }
  }

  /** A file out of what is kept: the card on paper, or as ASC CDL. */
  async file(what: 'paper' | 'cdl', cut: string): Promise<{ name: string; bytes: Blob } | null> {
    try {
      const bytes =
        what === 'cdl' ? await this.desk.decisionList() : await this.desk.gradingOnPaper(cut);
      return { name: what === 'cdl' ? 'light.ccc' : `${cut}-grading-card.pdf`, bytes };
    } catch (why) {
      this.problem = problemWords(problemOf(why));
      return null;
    }
  }
}
