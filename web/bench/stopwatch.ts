// What is laid into the page before anything else runs there: a stopwatch that
// starts with a key or a click and stops at the frame drawn after the page shows
// what it is to show, and a count of the pictures that were drawn. It imports
// nothing, since it runs in the page.

/** Marks that it leaves in the browser's trace. */
export type Mark = 'onestrand picture drawn' | 'onestrand answer shown';

/** What an element must show. */
export type Sign =
  /** At least so many elements are there; none means that they must be gone. */
  | { readonly at: string; readonly least: number }
  | { readonly at: string; readonly none: true }
  | { readonly at: string; readonly says: string }
  | { readonly at: string; readonly saysNot: string }
  | { readonly at: string; readonly named: string; readonly is: string }
  /** Pictures have been drawn on a canvas since the stopwatch was wound. */
  | { readonly drawn: number };

export interface Drawing {
  /** Unit: milliseconds, on the clock of the page. */
  readonly at: number;
  /** Pictures are numbered as they come; the same picture keeps its number. */
  readonly picture: number;
}

/** Unit: milliseconds since the event. */
export interface Timed {
  /** The page had the signs. */
  readonly answered: number;
  /** The frame with them had been drawn, and the next one began. */
  readonly drawn: number;
}

export interface Stopwatch {
  /** It starts with the next event of this type. */
  wind(type: 'keydown' | 'click', until: readonly Sign[]): void;
  /** What it has measured; rejects when the signs stay away. */
  time(): Promise<Timed>;
  /** Whether all of the signs are there now. */
  shows(signs: readonly Sign[]): boolean;
  /** From now on pictures are counted anew. */
  countDrawings(): void;
  drawings(): readonly Drawing[];
}

declare global {
  interface Window {
    stopwatch: Stopwatch;
  }
}

/** Unit: milliseconds. */
const PATIENCE = 10_000;

function leave(mark: Mark): void {
  performance.mark(mark);
}

class PageStopwatch implements Stopwatch {
  private signs: readonly Sign[] = [];
  private began: number | null = null;
  private running: Promise<Timed> | null = null;
  private seen: (() => void) | null = null;
  private list: Drawing[] = [];
  private readonly numbers = new WeakMap<object, number>();
  private pictures = 0;

  wind(type: 'keydown' | 'click', until: readonly Sign[]): void {
    this.list = [];
    if (this.shows(until)) throw new Error(`already to be seen: ${JSON.stringify(until)}`);
    this.signs = until;
    this.began = null;
    // The time of the event itself: how long it waited for the page counts too.
    addEventListener(type, (event) => (this.began = event.timeStamp), {
      capture: true,
      once: true,
    });
    this.running = new Promise((resolve, reject) => {
      const timer = setTimeout(() => {
        this.seen = null;
        reject(new Error(`not seen: ${JSON.stringify(until)}`));
      }, PATIENCE);
      this.seen = () => {
        this.seen = null;
        clearTimeout(timer);
        const since = () => performance.now() - (this.began ?? NaN);
        const answered = since();
        leave('onestrand answer shown');
        // The first call comes before that frame is drawn, the second after.
        requestAnimationFrame(() =>
          requestAnimationFrame(() => resolve({ answered, drawn: since() })),
        );
      };
    });
    // Whoever asks for the time hears of a failure; nobody else.
    this.running.catch(() => undefined);
  }

  time(): Promise<Timed> {
    return this.running ?? Promise.reject(new Error('the stopwatch was not wound'));
  }

  shows(signs: readonly Sign[]): boolean {
    return signs.every((sign) => this.isThere(sign));
  }

  countDrawings(): void {
    this.list = [];
  }

  drawings(): readonly Drawing[] {
    return this.list;
  }

  /** The page has changed. */
  look(): void {
    if (this.began !== null && this.seen && this.shows(this.signs)) this.seen();
  }

  /** A picture was drawn on a canvas. */
  drew(picture: object): void {
    let number = this.numbers.get(picture);
    if (number === undefined) {
      number = this.pictures += 1;
      this.numbers.set(picture, number);
    }
    this.list.push({ at: performance.now(), picture: number });
    leave('onestrand picture drawn');
    this.look();
  }

  private isThere(sign: Sign): boolean {
    if ('drawn' in sign) return this.list.length >= sign.drawn;
    if ('least' in sign) return document.querySelectorAll(sign.at).length >= sign.least;
    const element = document.querySelector(sign.at);
    if ('none' in sign) return element === null;
    if (!element) return false;
    if ('named' in sign) return element.getAttribute(sign.named) === sign.is;
    const words = element.textContent;
    return 'says' in sign ? words === sign.says : words !== sign.saysNot;
  }
}

const watch = new PageStopwatch();
window.stopwatch = watch;

new MutationObserver(() => watch.look()).observe(document, {
  subtree: true,
  childList: true,
  characterData: true,
  attributes: true,
});

const canvas = CanvasRenderingContext2D.prototype;
const drawImage = canvas.drawImage;
canvas.drawImage = function (this: CanvasRenderingContext2D, ...given: unknown[]) {
  Reflect.apply(drawImage, this, given);
  if (given[0] instanceof ImageBitmap) watch.drew(given[0]);
};
