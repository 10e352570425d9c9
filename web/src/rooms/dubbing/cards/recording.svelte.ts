// Recording in the Dubbing room: passes, what was left half, and how late this machine is.
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { HalfRecording, Recorded } from '$lib/record/film_recordings';
import type { Latency } from '$lib/record/loop_back';
import { type LoopBack, measureLatency } from '$lib/record/measure_latency';
import {
  type Microphone,
  type Pass,
  Recorder,
  type RecordingPlace,
} from '$lib/record/recorder.svelte';

/** Where recordings are kept; `FilmRecordings` in the page. */
export interface Recordings extends RecordingPlace {
  finish(pass: Pick<Pass, 'recording' | 'offset'>): Promise<Recorded>;
  half(): Promise<HalfRecording[]>;
  throwAway(recording: string): Promise<HalfRecording[]>;
}

/** A pass that has become a sound. */
export interface KeptPass {
  readonly id: number;
  readonly name: string;
  readonly seconds: number;
  readonly from: number;
  /** The running frame that it was recorded from. */
  readonly at: number;
}

/** What the room gives. */
export interface AroundRecording {
  /** The running frame under the rule. */
  at(): number;
  /** Whatever must be read before sound is heard; false while it stands there. */
  mayHear(): boolean;
  /** The picture runs with the mix from there: gives the sample at which it is first heard. */
  run(): Promise<number | null>;
  stand(): void;
  /** Back to where the pass began, for the next one. */
  back(at: number): void;
  /** A sound has come: the room asks for its sounds anew. */
  came(): Promise<void>;
  /** What the sounds of the film are called: passes go on counting behind them. */
  names(): readonly string[];
}

/** Of the machine, and the same for every film: measured once while the page is open. */
let measured = $state.raw<{ latency: Latency; rate: number } | null>(null);

export class Recording {
  name = $state('voice');
  passes = $state.raw<readonly KeptPass[]>([]);
  half = $state.raw<readonly HalfRecording[]>([]);
  measures = $state(false);
  trouble = $state.raw<Problem | null>(null);
  readonly recorder: Recorder;
  private at = 0;
  private said = '';

  constructor(
    private readonly place: Recordings,
    private readonly around: AroundRecording,
    private readonly open: () => Promise<Microphone & LoopBack>,
  ) {
    this.recorder = new Recorder({
      open,
      place,
      latency: () => (this.latency?.kind === 'found' ? this.latency.samples : null),
    });
  }

  get latency(): Latency | null {
    return measured?.latency ?? null;
  }

  get rate(): number {
    return measured?.rate ?? 48_000;
  }

  /** What the next pass is called. */
  get nextName(): string {
    const name = this.name.trim() || 'recording';
    const begin = `${name}, pass `;
    const kept = [
      ...this.around.names(),
      ...[...this.passes, ...this.half.map((one) => one.about)].map((one) => one.name),
    ];
    const counted = kept.flatMap((one) => {
      const nth = one.startsWith(begin) ? Number(one.slice(begin.length)) : 0;
      return Number.isSafeInteger(nth) ? [nth] : [];
    });
    return `${begin}${String(Math.max(0, ...counted) + 1)}`;
  }

  get from(): number {
    return this.at;
  }

  /** Counts in and records from the frame under the rule; or ends the pass. */
  async startOrStop(): Promise<void> {
    if (this.recorder.busy) {
      await this.stop();
      return;
    }
    if (!this.around.mayHear()) return;
    this.trouble = null;
    this.at = this.around.at();
    this.said = this.nextName;
    await this.recorder.start(() => this.around.run());
  }

  /** Ends the pass, which becomes a sound at once: nothing waits to be saved. */
  async stop(): Promise<void> {
    const before = this.recorder.passes.length;
    this.around.stand();
    this.around.back(this.at);
    await this.recorder.stop();
    const pass = this.recorder.passes[before];
    if (pass) await this.finish(pass, this.said, this.at);
    else await this.look();
  }

  private async finish(
    pass: Pick<Pass, 'recording' | 'offset' | 'rate'>,
    name: string,
    at: number,
  ): Promise<void> {
    try {
      const { id, samples, from } = await this.place.finish(pass);
      this.passes = [...this.passes, { id, name, seconds: samples / pass.rate, from, at }];
      await this.around.came();
    } catch (why) {
      // It lies on the disk and is offered among what was left half.
      this.trouble = problemOf(why);
    }
    await this.look();
  }

  /** What was left half, as by a crash. */
  async look(): Promise<void> {
    try {
      const half = this.recorder.busy ? [] : await this.place.half();
      // What another window records at this moment is not left.
      this.half = half.filter((one) => !one.runs);
    } catch (why) {
      this.trouble = problemOf(why);
    }
  }

  async keepHalf({ recording, about, offset }: HalfRecording): Promise<void> {
    await this.finish({ recording, offset: offset ?? 0, rate: about.rate }, about.name, about.at);
  }

  async throwAway({ recording }: HalfRecording): Promise<void> {
    try {
      this.half = await this.place.throwAway(recording);
    } catch (why) {
      this.trouble = problemOf(why);
    }
  }

  async measure(): Promise<void> {
    if (this.measures || this.recorder.busy) return;
    this.measures = true;
    this.trouble = null;
    try {
      const device = await this.open();
      measured = { latency: await measureLatency(device), rate: device.rate };
    } catch (why) {
      this.recorder.refuse(why);
    }
    this.measures = false;
  }

  /** The room is left: a pass that runs is ended and kept. */
  async leave(): Promise<void> {
    if (this.recorder.busy) await this.stop();
  }

  /** The picture has come to its end, or was stopped by hand: so has the pass. */
  ran(runs: boolean): void {
    if (!runs && this.recorder.state.is === 'recording' && this.hasRun) void this.stop();
    this.hasRun = runs;
  }
  private hasRun = false;
}
