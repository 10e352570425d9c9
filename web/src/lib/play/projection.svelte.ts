// A projector threaded with one film: pictures from the program, drawn on a
// canvas of the room.
import type { Film } from '$lib/api/wire';
import { geometryFrom, pictureShape } from '$lib/film/gauge_geometry';
import { speedFrom } from '$lib/film/speed';
import { runAddress, titleRunAddress } from '$lib/pictures/addresses';
import { FrameRing } from './frame_ring';
import { Projector } from './projector';
import { ProjectorView } from './projector_view.svelte';
import { runSource } from './run_source';
import { type Over, Screen, screenLook } from './screen';

/** The name under which the ring keeps a title's pictures: no roll can have it. */
const titleRoll = (title: Film['titles'][number]) => `title ${title.id} ${title.drawn}`;

export class Projection {
  readonly view = new ProjectorView();
  readonly projector: Projector<ImageBitmap>;
  /** Pictures do not come: the program is gone, or the workprint. */
  trouble = $state(false);
  /** What lies on the film over a running frame; nothing on most. */
  private over: (running: number) => Over | undefined = () => undefined;
  private screen: Screen | null = null;
  private readonly ring: FrameRing<ImageBitmap>;
  private known = new Map<string, string | null>();
  private drawn = '';

  /**
   * @param name the film's name in addresses.
   * @param film the film as it stands now, asked anew at each fetch.
   * @param clock the moment that counts for a moment of the screen's clock, in ms: with
   * sound it is the sound's.
   */
  constructor(
    name: string,
    private readonly film: () => Film,
    private readonly onEnd: () => void = () => {},
    clock: (ms: number) => number = (ms) => ms,
  ) {
    const pictures = (roll: string) =>
      this.film().rolls.find((one) => one.roll === roll)?.pictures ?? null;
    this.ring = new FrameRing<ImageBitmap>({
      fetchRun: runSource((roll, first, count) => {
        const title = this.film().titles.find((one) => titleRoll(one) === roll);
        if (title) return titleRunAddress({ film: name, ...title }, first, count);
        return runAddress({ film: name, roll, pictures: pictures(roll) }, first, count);
      }),
      decode: (jpeg) => createImageBitmap(jpeg),
      later: (ms, act) => void setTimeout(act, ms),
      onArrival: () => {
        this.trouble = false;
        this.projector.arrived();
      },
      onTrouble: () => (this.trouble = true),
    });
    this.projector = new Projector<ImageBitmap>({
      pictures: this.ring,
      titleRoll: (named) => {
        const wanted = named.trim().toUpperCase();
        const title = this.film().titles.find((one) => one.name.toUpperCase() === wanted);
        return title ? titleRoll(title) : null;
      },
      draw: (drawn, running) => this.screen?.show(drawn, this.over(running)),
      requestFrame: (act) => requestAnimationFrame((ms) => act(clock(ms))),
      cancelFrame: (request) => cancelAnimationFrame(request),
      onChange: () => this.view.refresh(this.projector),
      onEnd: () => this.onEnd(),
    });
    this.projector.setSpeed(speedFrom(film().speed));
  }

  /** A roll that was read anew, or a title that was changed, has other pictures: the old ones are let go. */
  heedPictures(): void {
    const now = new Map(this.film().rolls.map((one) => [one.roll, one.pictures ?? null]));
    for (const [roll, pictures] of this.known) {
      if (now.get(roll) !== pictures) this.ring.forget(roll);
    }
    this.known = now;
    const drawn = this.film()
      .titles.map((one) => one.drawn)
      .join();
    if (drawn !== this.drawn) this.projector.redraw();
    this.drawn = drawn;
  }

  /** Something else lies on the film from now on; what is on the screen is drawn anew. */
  lay(over: (running: number) => Over | undefined): void {
    this.over = over;
    this.projector.redraw();
  }

  /** Throws on this canvas, as large as its box is; gives back how to stop. */
  throwOn(canvas: HTMLCanvasElement): () => void {
    const shape = { plain: pictureShape(geometryFrom(this.film().gauge)) };
    const screen = new Screen(canvas, shape, screenLook(canvas));
    this.screen = screen;
    const box = canvas.parentElement ?? canvas;
    const fit = () => {
      const { width, height } = box.getBoundingClientRect();
      if (screen.fit(width, height, window.devicePixelRatio)) this.projector.redraw();
    };
    fit();
    this.projector.redraw();
    const watch = new ResizeObserver(fit);
    watch.observe(box);
    return () => {
      watch.disconnect();
      this.screen = null;
    };
  }

  close(): void {
    this.projector.close();
  }
}
