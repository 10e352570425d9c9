// The picture under the rule, run at the speed the mix is made for; the chart follows it.
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { Speed } from '$lib/film/speed';
import { Projection } from '$lib/play/projection.svelte';
import { planOfCut } from '../screening/what_runs';
import type { DubbingRoom } from './dubbing_room.svelte';

export class Listening {
  readonly projection: Projection;
  /** Sound is to be heard: the caution stands before the first time. */
  cautions = $state(false);
  private stops: (() => void)[] = [];

  constructor(
    private readonly desk: FilmDesk,
    private readonly room: DubbingRoom,
  ) {
    const film = () => {
      if (!desk.film) throw new Error('a dub without a film');
      return desk.film;
    };
    this.projection = new Projection(desk.name, film);
    this.stops.push(
      $effect.root(() => {
        // Running, the picture leads the chart; standing, the chart leads the picture.
        $effect(() => {
          if (this.runs) this.room.go(this.projection.view.at);
        });
        $effect(() => {
          const at = Math.max(this.room.at, 0);
          if (!this.runs && this.projection.view.at !== at) this.projection.projector.seek(at);
        });
      }),
    );
  }

  get runs(): boolean {
    return this.projection.view.machine !== 'stopped';
  }

  setSpeed(speed: Speed): void {
    this.projection.projector.setSpeed(speed);
  }

  async thread(cut: string): Promise<void> {
    await this.room.load(cut);
    const found = this.desk.cuts.get(cut) ?? (await this.desk.loadCut(cut).catch(() => null));
    if (found) this.projection.projector.load(planOfCut(found), Math.max(this.room.at, 0));
  }

  runOrStop(): void {
    this.projection.projector.runOrStop();
  }

  stop(): void {
    if (this.runs) this.projection.projector.stop();
  }

  leave(): void {
    this.stops.forEach((stop) => stop());
    this.projection.close();
  }
}
