// Records voice and effects while the picture runs: asks for the microphone, counts in,
// keeps what comes, and says at every moment how much of it is safe.
import { type Keep, Tape, type TapeSettings } from './tape';

/** A microphone that is open. */
export interface Microphone {
  readonly rate: number;
  readonly channels: 1 | 2;
  /** Hands on what is heard until it is stopped; `at` counts the samples of its clock. */
  listen(heard: (at: number, samples: Float32Array) => void): Promise<void>;
  /** The last of it comes before this ends. */
  stop(): Promise<void>;
  /** It was unplugged, or its use was taken back. */
  onGone(act: () => void): void;
  /** How late what is heard here is recorded, as far as it says so itself. Unit: samples. */
  readonly lateAsSaid: number;
}

export type OpenMicrophone = () => Promise<Microphone>;

export type RecorderState =
  | { readonly is: 'idle' }
  | { readonly is: 'asked' }
  | { readonly is: 'refused'; readonly said: string; readonly next: string }
  /** Three, two, one. */
  | { readonly is: 'counting'; readonly left: number }
  | { readonly is: 'recording' }
  /** The rest is on its way to the disk. */
  | { readonly is: 'closing' }
  | { readonly is: 'kept'; readonly pass: Pass }
  /** What was recorded before is kept. */
  | { readonly is: 'failed'; readonly why: unknown; readonly said: string };

/** A pass that is kept. */
export interface Pass {
  readonly recording: string;
  readonly samples: number;
  readonly rate: number;
  /** Where the first frame is heard in it. Unit: samples of the recording. */
  readonly offset: number;
}

/** Where a recording is begun and kept. */
export interface RecordingPlace {
  begin(about: { rate: number; channels: 1 | 2 }): Promise<string>;
  /** @param offset where the first frame is heard in the recording, once it is known. */
  keep(
    recording: string,
    at: number,
    samples: Float32Array,
    offset: number | null,
  ): Promise<number>;
  mayHelp(why: unknown): boolean;
}

export interface RecorderParts {
  readonly open: OpenMicrophone;
  readonly place: RecordingPlace;
  /** How late what is heard here is recorded; null where it was not measured. Unit: samples. */
  readonly latency: () => number | null;
  readonly later?: TapeSettings['later'];
}

/** Between two numbers of the count-in. Unit: ms. */
const BEAT = 1000;

export class Recorder {
  state = $state.raw<RecorderState>({ is: 'idle' });
  /** What the program has said is on the disk. Unit: seconds. */
  keptSeconds = $state(0);
  /** The highest sample lately, 0 to 1 and over. */
  peak = $state(0);
  passes = $state.raw<readonly Pass[]>([]);
  private microphone: Microphone | null = null;
  private tape: Tape | null = null;
  private recording = '';
  private first: number | null = null;
  private began: number | null = null;
  private readonly later: TapeSettings['later'];

  constructor(private readonly parts: RecorderParts) {
    this.later = parts.later ?? ((ms, act) => void setTimeout(act, ms));
  }

  get busy(): boolean {
    return ['asked', 'counting', 'recording', 'closing'].includes(this.state.is);
  }

  /**
   * Counts in and records.
   * @param go lets the picture run; gives the sample of the microphone's clock at which the
   * first frame is heard, or null where it does not run.
   */
  async start(go: () => Promise<number | null>): Promise<void> {
    if (this.busy) return;
    this.state = { is: 'asked' };
    this.keptSeconds = 0;
    this.first = null;
    this.began = null;
    let microphone: Microphone;
    try {
      microphone = await this.parts.open();
    } catch (why) {
      this.refuse(why);
      return;
    }
    this.microphone = microphone;
    const { rate, channels } = microphone;
    try {
      this.recording = await this.parts.place.begin({ rate, channels });
    } catch (why) {
      await microphone.stop();
      this.fail(why);
      return;
    }
    const keep: Keep = (at, samples) =>
      this.parts.place.keep(this.recording, at, samples, this.offset);
    const { mayHelp } = this.parts.place;
    const tape = new Tape(keep, { rate, channels, later: this.later, mayHelp }, () => {
      this.keptSeconds = tape.kept / rate;
      if (tape.failed !== null && this.state.is === 'recording') void this.stop();
    });
    this.tape = tape;
    microphone.onGone(() => void this.stop());
    await microphone.listen((at, samples) => this.heard(at, samples));
    // The count-in is recorded too: a breath before the first word is not cut off.
    for (let left = 3; left > 0; left -= 1) {
      this.state = { is: 'counting', left };
      await new Promise<void>((done) => this.later(BEAT, done));
      if (this.state.is !== 'counting') return;
    }
    this.state = { is: 'recording' };
    this.began = await go();
    if (this.began === null) await this.stop();
  }

  /** Where the first frame is heard in the recording; null before it is. Unit: samples. */
  private get offset(): number | null {
    const { began, first, microphone } = this;
    if (began === null || first === null || !microphone) return null;
    return Math.max(0, Math.round(began - first + (this.parts.latency() ?? microphone.lateAsSaid)));
  }

  private heard(at: number, samples: Float32Array): void {
    this.first ??= at;
    this.peak = samples.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
    this.tape?.heard(samples);
  }

  /** Ends the pass; what was recorded is kept. */
  async stop(): Promise<void> {
    const { microphone, tape } = this;
    if (!microphone || !tape || !['counting', 'recording'].includes(this.state.is)) return;
    this.state = { is: 'closing' };
    await microphone.stop();
    await tape.end();
    const offset = this.offset ?? 0;
    this.microphone = null;
    this.peak = 0;
    if (tape.kept === 0) {
      this.fail(tape.failed ?? new Error('the microphone gave nothing'));
      return;
    }
    const pass: Pass = {
      recording: this.recording,
      samples: tape.kept,
      rate: microphone.rate,
      offset: Math.min(offset, tape.kept - 1),
    };
    this.passes = [...this.passes, pass];
    if (tape.failed === null) this.state = { is: 'kept', pass };
    else this.fail(tape.failed, tape.kept / microphone.rate);
  }

  /** There is no microphone: why, in words. */
  refuse(why: unknown): void {
    this.state = { is: 'refused', ...refusalWords(why) };
  }

  private fail(why: unknown, seconds = 0): void {
    const said =
      seconds > 0
        ? `What was recorded up to second ${seconds.toFixed(1)} is kept.`
        : 'Nothing of this pass is kept.';
    this.state = { is: 'failed', why, said };
  }
}

/** Why there is no microphone, in words, with the next step. */
export function refusalWords(why: unknown): { said: string; next: string } {
  const name = typeof why === 'object' && why !== null && 'name' in why ? why.name : '';
  switch (name) {
    case 'NotAllowedError':
    case 'SecurityError':
      return {
        said: 'The browser does not let this page hear the microphone.',
        next: 'Press the sign beside the address of this page, allow the microphone, and start again.',
      };
    case 'NotFoundError':
    case 'OverconstrainedError':
      return {
        said: 'There is no microphone on this machine.',
        next: 'Plug one in and start again; or record on tape and bring the sound in.',
      };
    case 'NotReadableError':
    case 'AbortError':
      return {
        said: 'Another program has the microphone.',
        next: 'Close it there and start again.',
      };
    default:
      return {
        said: 'The microphone could not be opened.',
        next: 'Unplug it, plug it in again, and start again.',
      };
  }
}
