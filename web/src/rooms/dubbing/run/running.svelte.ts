// What the Dubbing room holds of a run beside a projector: whether it is open, and its ear.
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import { parseSpeed } from '$lib/film/speed';
import { AlongPlayer } from '$lib/sound/along_player';
import type { FetchHeard } from '$lib/sound/sound_player';
import type { PassWords } from '../dub_types';
import type { DubbingRoom } from '../dubbing_room.svelte';
import { FollowRun } from './follow_run.svelte';
import { MicrophoneEar } from './microphone_ear';
import type { RunDesk } from './run_desk';

/** Levels start low: about a quarter of full, 12 dB down. */
const LOW = 0.25;
/** So often what plays along is steered. Unit: ms. */
const STEERED = 50;

export class Running {
  /** The run lies over the chart. */
  open = $state(false);
  /** A pass has ended, and it is asked what becomes of it. */
  over = $state(false);
  readonly run: FollowRun;
  /** The columns play along with the projector. */
  plays = $state(false);
  /** How loud that is heard here, 0 to 1. */
  level = $state(LOW);
  /** Why nothing plays along. */
  silent = $state.raw<Problem | null>(null);
  private along: AlongPlayer | null = null;
  private steered = -Infinity;
  private ear: MicrophoneEar | null = null;

  constructor(
    desk: RunDesk,
    private readonly room: DubbingRoom,
    private readonly context: () => Promise<AudioContext>,
    private readonly heard: FetchHeard,
  ) {
    const dub = () => {
      if (!room.dub) throw new Error('a run without a dub');
      return room.dub;
    };
    this.run = new FollowRun(desk, dub, () => performance.now() / 1000);
  }

  enter(): void {
    if (!this.room.dub) return;
    this.open = true;
    this.over = false;
    void this.run.begin();
  }

  leave(): void {
    this.open = false;
    this.over = false;
    void this.shut();
    void this.playAlong(false);
  }

  /** The columns play along, or fall silent. */
  async playAlong(on: boolean): Promise<void> {
    this.along?.close();
    this.along = null;
    this.plays = false;
    this.silent = null;
    const { dub } = this.room;
    const speed = dub && parseSpeed(dub.speed);
    if (!on || !speed) return;
    try {
      const along = new AlongPlayer(await this.context(), this.heard, speed, dub.frames, (why) => {
        this.silent = problemOf(why);
      });
      await along.open(this.level);
      this.along = along;
      this.plays = true;
    } catch (why) {
      this.silent = problemOf(why);
    }
  }

  setLevel(level: number): void {
    this.level = level;
    if (this.along) this.along.level = level;
  }

  /** Time goes on: what plays along is steered. */
  step(): void {
    const now = performance.now();
    if (!this.along || now - this.steered < STEERED) return;
    this.steered = now;
    const { frame, known } = this.run;
    const sure = frame !== null && known?.live && !known.lost;
    this.along.follow(sure ? { frame, speed: known.live?.speed ?? 0 } : null);
  }

  /** Another pass: what was followed before is let go. */
  anew(): void {
    this.over = false;
    void this.run.begin();
  }

  async keep(keep: PassWords['keep']): Promise<void> {
    if (await this.room.putPass(this.run.pass(keep))) this.anew();
  }

  async listen(to: 'nothing' | 'claw' | 'light', blades: number): Promise<void> {
    await this.shut();
    if (to === 'nothing') return;
    this.ear = await MicrophoneEar.open(
      await this.context(),
      to === 'light' ? blades : null,
      (piece) => void this.run.hear(piece),
      () => void this.shut(),
    );
  }

  private async shut(): Promise<void> {
    const { ear } = this;
    this.ear = null;
    await ear?.close();
  }
}
