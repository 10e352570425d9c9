// The picture under the rule, run at the speed the mix is made for, with its sound. The sound's
// clock leads the picture, and the picture leads the chart.
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { Speed } from '$lib/film/speed';
import { Projection } from '$lib/play/projection.svelte';
import { AudioMachine } from '$lib/sound/audio_machine';
import { PictureClock } from '$lib/sound/picture_clock';
import { SoundPlayer } from '$lib/sound/sound_player';
import { toldOnce } from '$lib/ui/caution/told_once.svelte';
import { planOfCut } from '../screening/what_runs';
import type { DubDesk } from './dub_desk';
import type { DubbingRoom } from './dubbing_room.svelte';

/** Levels start low: about a quarter of full, 12 dB down. */
const LOW = 0.25;

export class Listening {
  readonly projection: Projection;
  /** The caution for the ears stands before the first sound. */
  cautions = $state(false);
  /** How loud it is heard here, 0 to 1; the mix is not changed by it. */
  level = $state(LOW);
  /** It is heard as the stripe of the film will let it through. */
  through = $state(false);
  /** The highest sample lately, 0 to 1 and over. */
  peak = $state(0);
  /** Why nothing is heard. */
  trouble = $state.raw<Problem | null>(null);
  private machine: AudioMachine | null = null;
  private player: SoundPlayer | null = null;
  private readonly clock = new PictureClock(() => this.player?.elapsed ?? null);
  private speed: Speed = { num: 18, den: 1 };
  private readonly stopEffects: () => void;

  constructor(
    private readonly desk: FilmDesk,
    private readonly dubDesk: DubDesk,
    private readonly room: DubbingRoom,
  ) {
    const film = () => {
      if (!desk.film) throw new Error('a dub without a film');
      return desk.film;
    };
    this.projection = new Projection(desk.name, film, undefined, (ms) => this.clock.at(ms));
    this.stopEffects = $effect.root(() => this.follow());
  }

  private follow(): void {
    const { view } = this.projection;
    $effect(() => {
      if (view.machine === 'running') this.begin();
      else this.silence(view.machine === 'stopped');
    });
    // Running, the picture leads the chart; standing, the chart leads the picture.
    $effect(() => {
      if (!this.runs) return;
      this.room.go(view.at);
      this.player?.tick();
      this.peak = this.machine?.peak() ?? 0;
    });
    $effect(() => {
      const at = Math.max(this.room.at, 0);
      if (!this.runs && view.at !== at) this.projection.projector.seek(at);
    });
    // A level was changed, a column silenced: the ear has it at once.
    $effect(() => {
      void this.room.dub?.heard;
      void this.room.solo;
      void this.through;
      void this.player?.changed();
    });
    $effect(() => {
      const { level } = this;
      if (this.machine) this.machine.level = level;
    });
  }

  get runs(): boolean {
    return this.projection.view.machine !== 'stopped';
  }

  /** Whether there is anything to be heard. */
  get hasSound(): boolean {
    return this.room.dub?.cues.some((one) => one.cue.sound !== null) ?? false;
  }

  setSpeed(speed: Speed): void {
    this.speed = speed;
    this.projection.projector.setSpeed(speed);
  }

  async thread(cut: string): Promise<void> {
    await this.room.load(cut);
    const found = this.desk.cuts.get(cut) ?? (await this.desk.loadCut(cut).catch(() => null));
    if (found) this.projection.projector.load(planOfCut(found), Math.max(this.room.at, 0));
  }

  runOrStop(): void {
    if (this.runs) {
      this.stop();
      return;
    }
    // Before the first sound of a session; the next press starts.
    if (this.hasSound && !this.mayHear()) return;
    this.records = false;
    void this.start();
  }

  /** Whether sound may be heard: else the caution for the ears stands now, and the next press goes on. */
  mayHear(): boolean {
    if (!toldOnce.has('hearing') && !this.cautions) {
      this.cautions = true;
      return false;
    }
    if (this.cautions) toldOnce.tell(['hearing']);
    this.cautions = false;
    return true;
  }

  /** The browser's machine for sound, whose clock a recording is counted by. */
  async context(): Promise<AudioContext> {
    this.machine ??= new AudioMachine();
    await this.machine.wake();
    return this.machine.context;
  }

  /** Runs for a recording: gives the sample of the machine's clock at which its first frame is heard. */
  async runToRecord(): Promise<number | null> {
    if (this.runs) return null;
    this.records = true;
    const begun = new Promise<number | null>((done) => (this.begun = done));
    await this.start();
    return begun;
  }
  /** A recording is made: the sound's clock leads, even where the mix is silent. */
  private records = false;
  private begun: ((sample: number | null) => void) | null = null;

  private async start(): Promise<void> {
    const { projector } = this.projection;
    // At its end it starts anew: the sound must know where.
    const last = this.room.dub ? this.room.dub.frames - 1 : 0;
    if (projector.at >= last) projector.seek(0);
    this.trouble = null;
    if (this.hasSound || this.records) {
      this.machine ??= new AudioMachine();
      this.machine.level = this.level;
      this.player ??= this.newPlayer(this.machine);
      await this.machine.wake();
      await this.player.thread(projector.at, last + 1, this.speed);
    }
    projector.run();
  }

  private newPlayer(machine: AudioMachine): SoundPlayer {
    const { dubDesk, room } = this;
    return new SoundPlayer(
      machine,
      (first, count, signal) => {
        if (!room.dub) throw new Error('no dub is open');
        const { dub, solo } = room;
        return dubDesk.heard({ dub, solo, through: this.through, first, count }, signal);
      },
      (why) => (this.trouble = problemOf(why)),
    );
  }

  /** The pictures have begun: so does the sound. */
  private begin(): void {
    if (!this.player || !(this.hasSound || this.records) || this.player.plays) return;
    this.player.begin(this.projection.projector.at);
    this.clock.begin();
    const at = this.player.beganAt;
    this.begun?.(at === null || !this.machine ? null : at * this.machine.context.sampleRate);
    this.begun = null;
  }

  private silence(stopped: boolean): void {
    this.clock.stop();
    if (stopped) {
      // Stopped before it ran.
      this.begun?.(null);
      this.begun = null;
    }
    if (this.player?.plays) this.player.stop();
    this.peak = 0;
  }

  stop(): void {
    if (this.runs) this.projection.projector.stop();
  }

  leave(): void {
    this.stopEffects();
    this.player?.stop();
    this.projection.close();
    void this.machine?.close();
  }
}
