// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { type GaugeGeometry, stripLayout } from '$lib/film/gauge_geometry';
import { REGULAR_8, SUPER_8 } from '../../../stories/gauges';
import { type Hanging, type HangingInks, paintHanging, type Pen } from './draw_hanging';

const INKS: HangingInks = {
  film: 'film',
  through: 'through',
  unseen: 'unseen',
  flag: 'flag',
  ochre: 'ochre',
  ink: 'ink',
  pencil: 'pencil',
};

type Stroke = { what: string; with: string; at: number[] };

/** A pen that writes down what it was asked to paint. */
class WritingPen implements Pen {
  fillStyle: string = '';
  strokeStyle: string = '';
  lineWidth = 0;
  readonly strokes: Stroke[] = [];
  #note(what: string, ink: unknown, ...at: number[]) {
    this.strokes.push({ what, with: String(ink), at });
  }
  fillRect(...at: number[]) {
    this.#note('rect', this.fillStyle, ...at);
  }
  drawImage(...all: unknown[]) {
    const [image, ...at] = all;
    this.#note('picture', image, ...at.map(Number));
  }
  roundRect(...at: unknown[]) {
    this.#note('hole', this.fillStyle, ...at.map(Number));
  }
  moveTo(...at: number[]) {
    this.#note('from', this.strokeStyle, ...at);
  }
  lineTo(...at: number[]) {
    this.#note('to', this.strokeStyle, ...at);
  }
  setLineDash(at: Iterable<number>) {
    this.#note('dash', this.strokeStyle, ...at);
  }
  beginPath() {}
  stroke() {}
  fill() {}
}

const here = 'here' as unknown as CanvasImageSource;

function painted(more: Partial<Hanging> = {}, geometry: GaugeGeometry = SUPER_8, scale = 8) {
  const pen = new WritingPen();
  const layout = stripLayout(geometry, scale);
  const strip = { layout, pictures: 5, from: 0, shown: 5, picture: () => here, marks: {}, ...more };
  paintHanging(pen, strip, INKS);
  return { layout, of: (what: string) => pen.strokes.filter((stroke) => stroke.what === what) };
}

describe('a hanging strip', () => {
  it('has a picture for each place, one pitch below the other', () => {
    const { of, layout } = painted();
    const tops = of('picture').map((one) => one.at[1] ?? 0);
    expect(tops).toHaveLength(5);
    expect((tops[3] ?? 0) - (tops[2] ?? 0)).toBeCloseTo(layout.pitch, 9);
  });

  it('shows where pictures have not arrived', () => {
    const { of } = painted({ picture: (place) => (place < 2 ? here : null) });
    expect(of('picture')).toHaveLength(2);
    expect(of('rect').filter((one) => one.with === 'unseen')).toHaveLength(3);
  });

  it('paints only what is in sight of a long one', () => {
    const asked: number[] = [];
    const picture = (place: number) => {
      asked.push(place);
      return here;
    };
    painted({ pictures: 3600, from: 1000.5, shown: 3, picture });
    expect(asked).toEqual([1000, 1001, 1002, 1003]);
  });

  it('never asks for a picture behind its tail', () => {
    const asked: number[] = [];
    const picture = (place: number) => {
      asked.push(place);
      return here;
    };
    painted({ pictures: 3, from: 1, shown: 9, picture });
    expect(asked).toEqual([1, 2]);
  });

  it('has single holes near by and a plain row far off', () => {
    expect(painted().of('hole')).toHaveLength(5);
    expect(painted({}, REGULAR_8).of('hole')).toHaveLength(6);
    expect(painted({}, SUPER_8, 4).of('hole')).toHaveLength(0);
  });

  it('brackets a sign over some frames, dashes one over the whole take', () => {
    const { of, layout } = painted({ marks: { signs: [{ from: 1, to: 3, kind: 'part' }] } });
    expect(of('to').map((one) => one.at[1])).toEqual([
      layout.pitch + 1.5,
      3 * layout.pitch,
      3 * layout.pitch,
    ]);
    const whole = painted({ marks: { signs: [{ from: 0, to: 5, kind: 'whole' }] } });
    expect(whole.of('dash').some((one) => one.at.length === 2)).toBe(true);
    expect(whole.of('to').every((one) => one.with === 'ochre')).toBe(true);
  });

  it('draws a join as a pencil line across the film, and beside it how it is made', () => {
    const cement = painted({ marks: { joins: [{ at: 3, kind: 'cement' }] } });
    const line = cement.of('to').filter((one) => one.with === 'pencil');
    const y = 3 * cement.layout.pitch;
    expect(line.map((one) => one.at)).toEqual([[cement.layout.width + 8, y]]);
    expect(cement.of('from').filter((one) => one.with === 'ink')).toHaveLength(2);
    const unknown = painted({ marks: { joins: [{ at: 0, kind: 'not-known' }] } });
    // At the very head it is still whole, and nothing is said of how it is made.
    expect(unknown.of('to').map((one) => one.at[1])).toEqual([2]);
  });

  it('lays a black bar over each break, in sight or counted from where sight begins', () => {
    const { of, layout } = painted({ from: 2, shown: 3, marks: { breaks: [4] } });
    expect(of('from')[0]?.at[1]).toBeCloseTo(2 * layout.pitch, 9);
  });
});
