// The projector: runs a plan at an exact speed, and says truly what was shown.
// It knows no screen and no clock of its own: frames of time come from outside.

import type { FrameName } from '$lib/film/frame_name';
import type { Speed } from '$lib/film/speed';
import { about, Course, type Direction, type Round } from './course';
import type { Freed, Held } from './frame_ring';
import { PlayPlan, type Showing } from './play_plan';
import { RunClock } from './run_clock';
import { type Because, type Counts, NOTHING_RUN, RunningCount } from './running_count';

/** What is drawn: a picture, why there is none, or film without a picture. */
export type Drawn<B> =
  | { readonly kind: 'picture'; readonly roll: string; readonly frame: number; readonly picture: B }
  | {
      readonly kind: 'none' | 'spoilt';
      readonly roll: string;
      readonly frame: number;
    }
  | Exclude<Showing, { kind: 'picture' }>;

/** Stopped; waiting until enough film is there to start; running. */
export type Machine = 'stopped' | 'threading' | 'running';

/** What the projector needs of the ring of pictures. */
export interface Pictures<B> {
  want(frames: readonly FrameName[]): void;
  get(roll: string, frame: number): Held<B> | undefined;
}

/** What the projector needs from outside. */
export interface ProjectorParts<B> {
  readonly pictures: Pictures<B>;
  /** Under which name the pictures of a title come; null where it has none. */
  readonly titleRoll?: (title: string) => string | null;
  readonly draw: (drawn: Drawn<B>, running: number) => void;
  /** Calls back once, when the screen is next drawn, with its time in ms. */
  readonly requestFrame: (act: (ms: number) => void) => number;
  readonly cancelFrame: (request: number) => void;
  /** Something that can be read off the projector has changed. */
  readonly onChange?: () => void;
  /** The film ran out. */
  readonly onEnd?: () => void;
}

/** How the projector works. */
export interface ProjectorSettings {
  /** Frames held ahead of the gate. */
  readonly ahead: number;
  /** Frames held behind it while it stands. */
  readonly behind: number;
  /** Frames that must be there before it starts. */
  readonly runUp: number;
  /** When film is so late, or the screen stood so long, the machine halts. Unit: ms. */
  readonly patience: number;
}

/** Tuned for two cores; see the figures in `README.md`. */
export const PROJECTOR: ProjectorSettings = { ahead: 24, behind: 8, runUp: 12, patience: 1000 };

/** Runs film on a screen. */
export class Projector<B extends Freed> {
  readonly #parts: ProjectorParts<B>;
  readonly #settings: ProjectorSettings;
  #plan = new PlayPlan([]);
  #speed: Speed = { num: 18, den: 1 };
  #round: Round | null = null;
  #machine: Machine = 'stopped';
  #direction: Direction = 1;
  #at = 0;
  #onScreen: number | null = null;
  #count: RunningCount | null = null;
  #course = new Course(0, 0, 1, null);
  #clock = new RunClock(0, this.#speed);
  #lastMs = 0;
  #step = 0;
  #isStepDrawn = false;
  #lastDrawnStep = 0;
  #request: number | null = null;

  constructor(parts: ProjectorParts<B>, settings: Partial<ProjectorSettings> = {}) {
    this.#parts = parts;
    this.#settings = { ...PROJECTOR, ...settings };
  }

  get machine(): Machine {
    return this.#machine;
  }

  get plan(): PlayPlan {
    return this.#plan;
  }

  get speed(): Speed {
    return this.#speed;
  }

  get direction(): Direction {
    return this.#direction;
  }

  get round(): Round | null {
    return this.#round;
  }

  /** The running frame that belongs in the gate now. */
  get at(): number {
    return this.#at;
  }

  /** The running frame that is truly on the screen, or null before the first. */
  get onScreen(): number | null {
    return this.#onScreen;
  }

  /** The figures of this run, or of the last. */
  get counts(): Counts {
    return this.#count?.counts() ?? NOTHING_RUN;
  }

  /** Threads another plan; a machine that runs goes on in it. */
  load(plan: PlayPlan, at = 0): void {
    this.#plan = plan;
    this.#round = null;
    this.#at = inside(plan, at);
    this.#onScreen = null;
    if (plan.length === 0) this.#machine = 'stopped';
    this.#place();
  }

  /** Another speed, from the frame in the gate on. */
  setSpeed(speed: Speed): void {
    this.#speed = speed;
    this.#place();
  }

  /** These frames round and round, or to the end. */
  goRound(round: Round | null): void {
    const first = inside(this.#plan, round?.first ?? 0);
    const thrown = Math.min(round?.thrown ?? 0, this.#plan.length);
    this.#round = round && thrown > first ? { first, thrown } : null;
    this.#place();
  }

  /** Starts as soon as enough film is there. At the end of the film it starts anew. */
  run(direction: Direction = 1): void {
    if (this.#plan.length === 0) return;
    this.#direction = direction;
    const last = direction === 1 ? this.#plan.length - 1 : 0;
    if (!this.#round && this.#at === last) this.#at = this.#plan.length - 1 - last;
    this.#count = new RunningCount();
    this.#machine = 'threading';
    this.#place();
  }

  /** Stops on the frame in the gate. */
  stop(): void {
    this.#machine = 'stopped';
    this.#place();
  }

  /** The machine's one lever. */
  runOrStop(): void {
    if (this.#machine === 'stopped') this.run(this.#direction);
    else this.stop();
  }

  /** So many frames on, or back; a machine that runs is stopped. */
  step(frames: number): void {
    this.#machine = 'stopped';
    this.#direction = frames < 0 ? -1 : 1;
    this.seek(this.#at + frames);
  }

  /** To a running frame; a machine that runs goes on from there. */
  seek(running: number): void {
    this.#at = inside(this.#plan, running);
    this.#place();
  }

  /** Pictures have come: `FrameRing` calls this through its `onArrival`. */
  arrived(): void {
    if (this.#machine !== 'running') this.#askForFrame();
  }

  /** Draws what is on the screen once more, at once, for a canvas that was emptied. */
  redraw(): void {
    const running = this.#onScreen;
    this.#onScreen = null;
    if (running === null || !this.#drawIfThere(running)) this.#askForFrame();
  }

  /** Nothing more is asked for or drawn. */
  close(): void {
    this.#machine = 'stopped';
    if (this.#request !== null) this.#parts.cancelFrame(this.#request);
    this.#request = null;
    this.#parts.pictures.want([]);
  }

  /** After every change: what is wanted now, and threading anew where it ran. */
  #place(): void {
    if (this.#machine === 'running') this.#machine = 'threading';
    this.#course = new Course(this.#plan.length, this.#at, this.#direction, this.#round);
    if (this.#machine === 'threading') this.#at = this.#course.at(0) ?? this.#at;
    this.#want(0);
    this.#askForFrame();
    this.#parts.onChange?.();
  }

  #want(step: number): void {
    const frames = this.#machine === 'stopped' ? this.#framesAbout() : this.#framesFrom(step);
    // What is on the screen is kept, so that it can be drawn once more.
    if (this.#onScreen !== null) frames.push(this.#onScreen);
    this.#parts.pictures.want(
      frames
        .filter((running) => running < this.#plan.length)
        .map((running) => this.#pictureOf(this.#plan.showing(running)))
        .filter((picture) => picture !== null),
    );
  }

  #framesAbout(): number[] {
    const { ahead, behind } = this.#settings;
    const [on, back] = this.#direction === 1 ? [ahead, behind] : [behind, ahead];
    return about(this.#at, this.#plan.length, on, back);
  }

  #framesFrom(step: number): number[] {
    const steps = Array.from({ length: this.#settings.ahead }, (_, off) => step + off);
    return steps.map((each) => this.#course.at(each)).filter((running) => running !== null);
  }

  #askForFrame(): void {
    this.#request ??= this.#parts.requestFrame((ms) => {
      this.#request = null;
      this.#tick(ms);
    });
  }

  #tick(ms: number): void {
    if (this.#machine === 'threading' && this.#isThreaded()) this.#start(ms);
    if (this.#machine === 'running') this.#runOn(ms);
    else this.#drawIfThere(this.#at);
    this.#lastMs = ms;
    if (this.#machine === 'running') this.#askForFrame();
  }

  #isThreaded(): boolean {
    const due = this.#framesFrom(0).slice(0, this.#settings.runUp);
    return due.every((running) => this.#lookUp(running) !== null);
  }

  #start(ms: number): void {
    this.#machine = 'running';
    this.#clock = new RunClock(ms, this.#speed);
    this.#lastMs = ms;
    this.#step = 0;
    this.#lastDrawnStep = 0;
    this.#isStepDrawn = false;
    this.#parts.onChange?.();
  }

  #runOn(ms: number): void {
    if (ms - this.#lastMs > this.#settings.patience) {
      // The page was out of sight: the film waited, and goes on where it was.
      this.#halt(this.#isStepDrawn ? this.#step + 1 : this.#step, 'screen');
      return;
    }
    const step = Math.max(this.#step, this.#clock.stepAt(ms));
    if (step > this.#step) this.#moveTo(step);
    if (this.#machine !== 'running' || this.#isStepDrawn) return;
    if (this.#drawIfThere(this.#at)) {
      this.#isStepDrawn = true;
      this.#lastDrawnStep = step;
      this.#count?.countShown();
      this.#parts.onChange?.();
    }
  }

  /** The film has moved on: what had its time and was not drawn is dropped. */
  #moveTo(step: number): void {
    const over = Math.min(step, this.#course.steps);
    if (!this.#isStepDrawn) this.#drop(this.#step, 'late');
    for (let missed = this.#step + 1; missed < over; missed += 1) this.#drop(missed, 'screen');
    const at = this.#course.at(step);
    if (at === null) {
      this.#runOut();
      return;
    }
    this.#step = step;
    this.#isStepDrawn = false;
    this.#at = at;
    this.#want(step);
    if (this.#lookUp(at) === null) this.#waitFor(step);
    this.#parts.onChange?.();
  }

  /** The picture of this step is late: the last one stands, and is counted. */
  #waitFor(step: number): void {
    const lateFrames = step - this.#lastDrawnStep;
    if (this.#onScreen !== null) this.#count?.countStanding(this.#onScreen, lateFrames);
    if (this.#clock.msOf(lateFrames) > this.#settings.patience) this.#halt(step, 'late');
  }

  #drop(step: number, because: Because): void {
    const at = this.#course.at(step);
    if (at !== null) this.#count?.countDropped(at, step, because);
  }

  #halt(step: number, because: Because): void {
    const at = this.#course.at(step);
    if (at === null) {
      this.#runOut();
      return;
    }
    this.#at = at;
    this.#count?.countHalted(at, because);
    this.#place();
  }

  #runOut(): void {
    this.#at = this.#course.at(this.#course.steps - 1) ?? this.#at;
    this.stop();
    this.#parts.onEnd?.();
  }

  /** Draws a running frame unless it is on the screen already; false while its picture is on the way. */
  #drawIfThere(running: number): boolean {
    if (this.#onScreen === running) return true;
    const drawn = this.#lookUp(running);
    if (drawn === null) return false;
    this.#parts.draw(drawn, running);
    this.#onScreen = running;
    if (this.#machine !== 'running') this.#parts.onChange?.();
    return true;
  }

  /** The picture that a running frame needs; a card to shoot has those of its title. */
  #pictureOf(showing: Showing): FrameName | null {
    if (showing.kind === 'picture') return showing;
    if (showing.kind !== 'card') return null;
    const roll = this.#parts.titleRoll?.(showing.title) ?? null;
    return roll === null ? null : { roll, frame: showing.frame };
  }

  #lookUp(running: number): Drawn<B> | null {
    if (running >= this.#plan.length) return null;
    const showing = this.#plan.showing(running);
    const picture = this.#pictureOf(showing);
    if (!picture) return showing.kind === 'picture' ? null : showing;
    const { roll, frame } = picture;
    const held = this.#parts.pictures.get(roll, frame);
    if (!held) return null;
    // A title whose picture does not come is shown by its name.
    if (showing.kind === 'card' && held.kind !== 'picture') return showing;
    return held.kind === 'picture' ? { ...held, roll, frame } : { kind: held.kind, roll, frame };
  }
}

function inside(plan: PlayPlan, running: number): number {
  return Math.max(0, Math.min(Math.round(running), plan.length - 1));
}
