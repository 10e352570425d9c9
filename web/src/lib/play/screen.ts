// The screen that film is thrown on: a canvas, true to the picture's shape.

import { frameName } from '$lib/film/frame_name';
import type { Rect } from '$lib/film/gauge_geometry';
import { letterbox, linesOf, type Shape } from './letterbox';
import type { Drawn } from './projector';

/** Colours and face, from the tokens; the screen has none of its own. */
export interface ScreenLook {
  /** About the picture. */
  readonly surround: string;
  readonly black: string;
  readonly white: string;
  /** Ground and words of a card to shoot, and of a frame without a picture. */
  readonly card: string;
  readonly ink: string;
  readonly hatch: string;
  readonly face: string;
}

/** The look as the tokens of an element have it. */
export function screenLook(element: Element): ScreenLook {
  const style = getComputedStyle(element);
  const token = (name: string) => style.getPropertyValue(name).trim();
  return {
    surround: token('--film'),
    black: token('--film'),
    white: token('--glass'),
    card: token('--card'),
    ink: token('--ink'),
    hatch: token('--ink2'),
    face: style.fontFamily,
  };
}

/** A decoded picture that says how large it is. */
export type Picture = CanvasImageSource & { readonly width: number; readonly height: number };

/** The shape of what is thrown. */
export interface ScreenShape {
  /** Leader and cards, for which no scan says a shape: the gauge's picture. */
  readonly plain: Shape;
  /** Width by height of one pixel of the scan. */
  readonly pixel?: number;
}

/** Draws what lies on the film over its picture. */
export type Over = (on: CanvasRenderingContext2D, picture: Rect, look: ScreenLook) => void;

/** The lettering of a card: this part of the picture's height. */
const LETTER_PART = 1 / 11;

/** Draws what the projector says on a canvas. */
export class Screen {
  readonly #canvas: HTMLCanvasElement;
  readonly #on: CanvasRenderingContext2D;
  #look: ScreenLook;
  #shape: ScreenShape;
  #at: Rect = { x: 0, y: 0, w: 0, h: 0 };

  constructor(canvas: HTMLCanvasElement, shape: ScreenShape, look: ScreenLook) {
    const on = canvas.getContext('2d', { alpha: false });
    if (!on) throw new Error('this browser draws no pictures on a canvas');
    this.#canvas = canvas;
    this.#on = on;
    this.#shape = shape;
    this.#look = look;
    this.#sweep();
  }

  /** Takes the room that the canvas has on the page; true when it must be drawn anew. */
  fit(width: number, height: number, dots: number): boolean {
    const [w, h] = [Math.round(width * dots), Math.round(height * dots)];
    if (this.#canvas.width === w && this.#canvas.height === h) return false;
    this.#canvas.width = w;
    this.#canvas.height = h;
    this.#sweep();
    return true;
  }

  /** Another shape or look; what is on the screen must be drawn anew. */
  dress(shape: ScreenShape, look: ScreenLook): void {
    this.#shape = shape;
    this.#look = look;
    this.#sweep();
  }

  /** Where the picture lies. Unit: px of the canvas. */
  get picture(): Rect {
    return this.#at;
  }

  /** Draws one frame, and over it what lies on the film there. */
  show(drawn: Drawn<Picture>, over?: Over): void {
    const at = this.#place(drawn);
    this.#draw(drawn, at);
    over?.(this.#on, at, this.#look);
  }

  #draw(drawn: Drawn<Picture>, at: Rect): void {
    switch (drawn.kind) {
      case 'picture':
        this.#on.drawImage(drawn.picture, at.x, at.y, at.w, at.h);
        return;
      case 'leader':
        this.#fill(at, this.#look[drawn.shade]);
        return;
      case 'card':
        this.#fill(at, this.#look.card);
        this.#letter(at, drawn.title);
        return;
      case 'none':
        this.#hatched(at, `The scan shows no picture of ${frameName(drawn.roll, drawn.frame)}.`);
        return;
      case 'spoilt':
        this.#hatched(at, `The picture of ${frameName(drawn.roll, drawn.frame)} cannot be read.`);
    }
  }

  /** A picture keeps the shape that was scanned; what has no picture takes the gauge's. */
  #place(drawn: Drawn<Picture>): Rect {
    const pixel = this.#shape.pixel ?? 1;
    const shape =
      drawn.kind === 'picture'
        ? { w: drawn.picture.width * pixel, h: drawn.picture.height }
        : this.#shape.plain;
    const at = letterbox({ w: this.#canvas.width, h: this.#canvas.height }, shape);
    const moved = at.w !== this.#at.w || at.h !== this.#at.h;
    // Of a wider or higher picture before, nothing may be left about this one.
    if (moved) this.#sweep();
    this.#at = at;
    return at;
  }

  #sweep(): void {
    const { width, height } = this.#canvas;
    this.#fill({ x: 0, y: 0, w: width, h: height }, this.#look.surround);
  }

  #fill(at: Rect, colour: string): void {
    this.#on.fillStyle = colour;
    this.#on.fillRect(at.x, at.y, at.w, at.h);
  }

  /** Hatched where a frame is missing, and the words for it on a plain ground. */
  #hatched(at: Rect, words: string): void {
    const on = this.#on;
    this.#fill(at, this.#look.card);
    on.save();
    on.beginPath();
    on.rect(at.x, at.y, at.w, at.h);
    on.clip();
    on.strokeStyle = this.#look.hatch;
    on.lineWidth = Math.max(1, at.h / 300);
    on.beginPath();
    for (let x = at.x - at.h; x < at.x + at.w; x += at.h / 24) {
      on.moveTo(x, at.y + at.h);
      on.lineTo(x + at.h, at.y);
    }
    on.stroke();
    on.restore();
    this.#letter(at, words, this.#look.card);
  }

  /** Words in the middle of the picture, as large as the room allows. */
  #letter(at: Rect, words: string, ground?: string): void {
    const on = this.#on;
    const size = Math.max(12, at.h * LETTER_PART);
    on.font = `600 ${size}px ${this.#look.face}`;
    on.textAlign = 'center';
    on.textBaseline = 'middle';
    const measure = (line: string) => on.measureText(line).width;
    const lines = linesOf(words, measure, at.w * 0.84);
    const top = at.y + at.h / 2 - ((lines.length - 1) * size * 1.35) / 2;
    lines.forEach((line, row) => {
      const [x, y] = [at.x + at.w / 2, top + row * size * 1.35];
      if (ground) {
        const half = measure(line) / 2 + size / 3;
        this.#fill({ x: x - half, y: y - size * 0.7, w: half * 2, h: size * 1.4 }, ground);
      }
      on.fillStyle = this.#look.ink;
      on.fillText(line, x, y);
    });
  }
}
