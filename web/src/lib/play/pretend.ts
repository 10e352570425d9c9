// A pretend screen, clock and server for the tests: time passes when told to.

import { frameName } from '$lib/film/frame_name';
import { FrameRing, type RingParts, type RingSettings } from './frame_ring';
import type { PlayPlan } from './play_plan';
import { type Drawn, Projector, type ProjectorSettings } from './projector';

/** A picture that knows whether it was freed. */
export class PretendPicture {
  closed = false;

  constructor(readonly name: string) {}

  close(): void {
    this.closed = true;
  }
}

/** Lets everything that is promised at this moment happen. */
export function settle(): Promise<void> {
  return new Promise((done) => setImmediate(done));
}

/** A clock whose time stands until it is moved. */
export class PretendClock {
  ms = 0;
  #due: { at: number; act: () => void }[] = [];

  readonly later = (ms: number, act: () => void): void => {
    this.#due.push({ at: this.ms + ms, act });
  };

  wait(ms: number): Promise<void> {
    return new Promise((done) => this.later(ms, done));
  }

  async moveTo(ms: number): Promise<void> {
    await settle();
    for (;;) {
      const next = this.#due.filter((each) => each.at <= ms).sort((a, b) => a.at - b.at)[0];
      if (!next) break;
      this.#due = this.#due.filter((each) => each !== next);
      this.ms = Math.max(this.ms, next.at);
      next.act();
      await settle();
    }
    this.ms = ms;
    await settle();
  }
}

/** A server that answers after a while, as the test says. */
export class PretendServer {
  readonly asked: { roll: string; first: number; count: number; signal: AbortSignal }[] = [];
  /** How long an answer takes. Unit: ms. */
  delay: (roll: string, first: number) => number = () => 0;
  /** Throws to refuse. */
  refuse: (roll: string, first: number, count: number) => void = () => undefined;
  missing = new Set<string>();

  constructor(readonly clock: PretendClock) {}

  readonly fetchRun = async (
    roll: string,
    first: number,
    count: number,
    signal: AbortSignal,
  ): Promise<(Blob | null)[]> => {
    this.asked.push({ roll, first, count, signal });
    const delay = this.delay(roll, first);
    if (delay > 0) await this.clock.wait(delay);
    this.refuse(roll, first, count);
    return Array.from({ length: count }, (_, off) => {
      const name = frameName(roll, first + off);
      return this.missing.has(name) ? null : new PretendJpeg(name);
    });
  };
}

/** A JPEG that carries its frame's name instead of a picture. */
export class PretendJpeg extends Blob {
  constructor(readonly frame: string) {
    super([frame]);
  }
}

/** The pictures decoded so far, by a decoder that takes no time. */
export function pretendDecoder(made: PretendPicture[]) {
  return (jpeg: Blob): Promise<PretendPicture> => {
    const picture = new PretendPicture(jpeg instanceof PretendJpeg ? jpeg.frame : '');
    made.push(picture);
    return Promise.resolve(picture);
  };
}

/** A ring on a pretend server. */
export function pretendRing(
  server: PretendServer,
  parts: Partial<RingParts<PretendPicture>> = {},
  settings: Partial<RingSettings> = {},
) {
  const made: PretendPicture[] = [];
  const ring = new FrameRing<PretendPicture>(
    {
      fetchRun: server.fetchRun,
      decode: pretendDecoder(made),
      later: server.clock.later,
      ...parts,
    },
    settings,
  );
  return { ring, made };
}

/** A projector with a screen of so many refreshes a second. */
export class PretendHouse {
  readonly clock = new PretendClock();
  readonly server = new PretendServer(this.clock);
  readonly drawn: { running: number; ms: number; what: string }[] = [];
  readonly made: PretendPicture[];
  readonly projector: Projector<PretendPicture>;
  readonly ring: FrameRing<PretendPicture>;
  ended = 0;
  /** Titles that have pictures, and the name those come under. */
  readonly titles = new Map<string, string>();
  /** Adds to the time of a refresh, as a wavering screen would. Unit: ms. */
  waver: (refresh: number) => number = () => 0;
  #refresh = 0;
  #asked: ((ms: number) => void) | null = null;

  constructor(
    readonly hz: number,
    settings: Partial<ProjectorSettings> = {},
  ) {
    const { ring, made } = pretendRing(this.server, { onArrival: () => this.projector.arrived() });
    this.ring = ring;
    this.made = made;
    this.projector = new Projector<PretendPicture>(
      {
        pictures: ring,
        titleRoll: (title) => this.titles.get(title) ?? null,
        draw: (drawn, running) => this.#draw(drawn, running),
        requestFrame: (act) => {
          this.#asked = act;
          return 1;
        },
        cancelFrame: () => {
          this.#asked = null;
        },
        onEnd: () => {
          this.ended += 1;
        },
      },
      settings,
    );
  }

  #draw(drawn: Drawn<PretendPicture>, running: number): void {
    if (drawn.kind === 'picture' && drawn.picture.closed) throw new Error('a freed picture drawn');
    const what = drawn.kind === 'picture' ? drawn.picture.name : drawn.kind;
    this.drawn.push({ running, ms: this.clock.ms, what });
  }

  /** So many refreshes of the screen. */
  async refresh(times = 1): Promise<void> {
    for (let each = 0; each < times; each += 1) {
      this.#refresh += 1;
      const due = (this.#refresh * 1000) / this.hz + this.waver(this.#refresh);
      await this.clock.moveTo(Math.max(due, this.clock.ms));
      const act = this.#asked;
      this.#asked = null;
      act?.(this.clock.ms);
      await settle();
    }
  }

  /** Refreshes until the machine runs. */
  async untilRunning(): Promise<void> {
    for (let each = 0; each < 1000 && this.projector.machine !== 'running'; each += 1) {
      await this.refresh();
    }
    if (this.projector.machine !== 'running') throw new Error('it never ran');
  }

  /** Refreshes until the machine stands. */
  async untilStopped(): Promise<void> {
    for (let each = 0; each < 100_000 && this.projector.machine !== 'stopped'; each += 1) {
      await this.refresh();
    }
    if (this.projector.machine !== 'stopped') throw new Error('it never stopped');
  }

  /** The screen is not drawn for so many refreshes. */
  skip(refreshes: number): void {
    this.#refresh += refreshes;
  }

  async load(plan: PlayPlan, at = 0): Promise<void> {
    this.projector.load(plan, at);
    await this.refresh(3);
  }
}
