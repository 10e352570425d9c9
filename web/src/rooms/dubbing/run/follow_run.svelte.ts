// A run of the mix beside a projector: what the hand saw goes to the program with its time; what
// is known of the projector comes back, and is carried on here until the next answer.
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { Dub, PassWords } from '../dub_types';
import { nextPass, passesOf } from '../cards/pass_words';
import { cutsOf, framesAsked } from './next_cues';
import type { Piece, RunDesk } from './run_desk';
import type { Followed, Seen } from './run_types';

/** The next day the same machine runs so differently, 95 of 100. Unit: frames a second. */
const ANOTHER_DAY = 0.4;

/** What is known of the machine: the speed of the last pass that found one. */
function asked(dub: Dub): { speed: number; speed_error: number } | Record<string, never> {
  const speeds = passesOf(dub).map(({ pass }) => Number(pass.speed));
  const speed = speeds.filter((one) => one > 0).at(-1);
  return speed === undefined ? {} : { speed, speed_error: ANOTHER_DAY };
}

/** So often the program is asked while nothing is seen. Unit: s. */
const ASKED_EVERY = 0.5;

export type Kind = 'rehearsal' | 'take';

export class FollowRun {
  known = $state.raw<Followed | null>(null);
  /** The moment that is shown. Unit: s of the clock. */
  now = $state(0);
  /** What was refused last, such as a tap in the wrong order; the next thing seen puts it away. */
  refused = $state.raw<Problem | null>(null);
  /** Why the program is not reached. */
  trouble = $state.raw<Problem | null>(null);
  kind = $state<Kind>('rehearsal');
  /** A cut that the hand chose to tap next; null: the next that comes. */
  chosen = $state<number | null>(null);
  /** The frame that lay in the gate as the motor went on; null: it was not told. */
  started = $state<number | null>(null);
  taps = $state(0);
  /** How late this hand taps in the mean; it stays from pass to pass. Unit: ms. */
  late = $state(0);
  /** Running frames at which something went wrong. */
  faults = $state.raw<readonly number[]>([]);
  private asked = -Infinity;
  /** One thing after the other, in the order in which it was seen. */
  private line: Promise<void> = Promise.resolve();
  private waiting = 0;

  constructor(
    private readonly desk: RunDesk,
    private readonly dub: () => Dub,
    /** Seconds of a clock that runs evenly. */
    private readonly clock: () => number,
  ) {}

  /** Begins anew: what was followed before is let go. */
  begin(): Promise<void> {
    this.known = null;
    this.refused = null;
    this.trouble = null;
    this.chosen = null;
    this.started = null;
    this.taps = 0;
    this.faults = [];
    this.asked = -Infinity;
    this.now = this.clock();
    return this.inOrder(async () => {
      const how = { ...asked(this.dub()), late_ms: this.late };
      this.known = await this.desk.begin(this.dub().cut, how);
    });
  }

  /** A hand that is known to be late. A run that goes on already is not reckoned anew. */
  async setLate(ms: number): Promise<void> {
    this.late = ms;
    if (this.untouched) await this.begin();
  }

  private inOrder(act: () => Promise<void>): Promise<void> {
    this.waiting += 1;
    this.line = this.line.then(async () => {
      try {
        await act();
        this.trouble = null;
      } catch (why) {
        const problem = problemOf(why);
        // The program answers, and says no: the tap was none. Else it is not reached.
        if (problem.code === 'production.unfit') this.refused = problem;
        else this.trouble = problem;
      }
      this.waiting -= 1;
    });
    return this.line;
  }

  private see(seen: Seen, at: number): Promise<void> {
    this.refused = null;
    return this.inOrder(() => this.ask([{ at, seen }]));
  }

  private async ask(events: { at: number; seen: Seen }[]): Promise<void> {
    const run = this.known?.run;
    if (run === undefined) return;
    this.asked = this.clock();
    const when = framesAsked(this.dub(), this.frame ?? 0);
    const known = await this.desk.seen(run, { now: this.asked, events, when });
    this.known = known;
  }

  // What the hand does. The time is taken at once, whatever waits.

  /** The motor goes on, the start mark in the gate. */
  motorOn(): Promise<void> {
    const at = this.clock();
    const frame = -this.dub().mix.leader;
    this.started = frame;
    this.taps = 0;
    return this.see({ what: 'started', frame }, at);
  }

  /** A cut comes, now. */
  tap(): Promise<void> {
    const at = this.clock();
    // Where nothing is known yet, the cut that is shown is the one that is meant.
    const cut = this.chosen ?? (this.known?.live ? null : this.nextCut);
    this.chosen = null;
    return this.see({ what: 'tap', cut }, at).then(() => {
      if (this.refused === null) this.taps += 1;
    });
  }

  /** What the counter of the machine says, now. */
  counter(frame: number): Promise<void> {
    return this.see({ what: 'counter', frame }, this.clock());
  }

  /** What the microphone heard. */
  hear(piece: Piece): Promise<void> {
    return this.inOrder(async () => {
      const run = this.known?.run;
      if (run === undefined) return;
      const known = await this.desk.hear(run, piece);
      // It was not asked when cues come: what is known of that stays until it is.
      this.known = { ...known, comes: this.known?.comes ?? [] };
    });
  }

  faultHere(): void {
    if (this.frame === null) return;
    const at = Math.max(0, Math.floor(this.frame));
    this.faults = [...this.faults, at].sort((one, other) => one - other);
  }

  /** Another cut than the next is meant: the one before or behind it. */
  chooseCut(by: 1 | -1): void {
    const cuts = cutsOf(this.dub());
    const at = cuts.indexOf(this.nextCut ?? cuts[0] ?? 0);
    this.chosen = cuts[Math.min(Math.max(at + by, 0), cuts.length - 1)] ?? null;
  }

  /** Time goes on: called each time the screen is drawn. */
  tick(): void {
    this.now = this.clock();
    const idle = this.waiting === 0 && this.known !== null;
    if (idle && this.now - this.asked >= ASKED_EVERY) void this.inOrder(() => this.ask([]));
  }

  // What is shown.

  /** Nothing was told of this pass yet. */
  readonly untouched: boolean = $derived(
    this.started === null && this.taps === 0 && (this.known?.live ?? null) === null,
  );

  /** The frame on the screen now; null while nothing is known. */
  readonly frame: number | null = $derived.by(() => {
    const live = this.known?.live;
    return live ? live.frame + live.speed * (this.now - live.at) : null;
  });

  /** Half the range that holds it in 95 of 100. Unit: frames. */
  readonly error: number = $derived.by(() => {
    const live = this.known?.live;
    return live ? live.frame_error + live.speed_error * Math.max(0, this.now - live.at) : 0;
  });

  readonly nextCut: number | null = $derived.by(() => {
    if (this.chosen !== null) return this.chosen;
    const cuts = cutsOf(this.dub());
    const told = this.known?.next_cut ?? null;
    if (told === null || this.frame === null) return told;
    const frame = this.frame - 3;
    return told > frame ? told : (cuts.find((cut) => cut > frame) ?? told);
  });

  /** How many taps fitted a cut. */
  readonly fitted: number = $derived(
    (this.known?.taken ?? []).filter((cut) => cut !== null && cut !== undefined).length,
  );

  /** The pass as it goes into the log: a rehearsal is called so. */
  pass(keep: PassWords['keep']): PassWords {
    const next = nextPass(this.dub());
    const speed = this.known?.line?.speed ?? this.known?.live?.speed;
    return {
      ...next,
      pass: this.kind === 'rehearsal' ? `${next.pass} rehearsal` : next.pass,
      start: this.started ?? next.start,
      speed: speed === undefined ? '' : speed.toFixed(2),
      faults: this.faults.map((at) => ({ at, what: '' })),
      keep,
    };
  }
}
