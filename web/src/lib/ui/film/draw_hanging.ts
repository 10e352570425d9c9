// A strip as it hangs from its peg, painted: small pictures, the film's edge,
// light through the holes, and the marks beside it.

import { holeColumns, stripHoles, type StripLayout } from '$lib/film/gauge_geometry';

/** What we ask of a canvas; a test can write it down instead of painting. */
export type Pen = Pick<
  CanvasRenderingContext2D,
  | 'fillStyle'
  | 'strokeStyle'
  | 'lineWidth'
  | 'fillRect'
  | 'drawImage'
  | 'beginPath'
  | 'moveTo'
  | 'lineTo'
  | 'stroke'
  | 'setLineDash'
  | 'roundRect'
  | 'fill'
>;

/** Inks by the names of their tokens. */
export interface HangingInks {
  readonly film: string;
  readonly through: string;
  readonly unseen: string;
  readonly flag: string;
  readonly ochre: string;
  readonly ink: string;
  readonly pencil: string;
}

/** Marks at heights counted in pictures from the head, fractions allowed. */
export interface HangingMarks {
  readonly breaks?: readonly number[];
  readonly signs?: readonly {
    readonly from: number;
    readonly to: number;
    /** A sign over some frames, over the whole take, or a flash. */
    readonly kind: 'part' | 'whole' | 'flash';
  }[];
  /** Joins found on the film, over the picture at a height. */
  readonly joins?: readonly {
    readonly at: number;
    readonly kind: 'tape' | 'cement' | 'weld' | 'not-known';
  }[];
  /** What the scanning machine did: shown longer, left out, blended, counted. */
  readonly scan?: readonly {
    readonly from: number;
    readonly to: number;
    readonly kind: 'doubled' | 'skip' | 'blended' | 'counted';
  }[];
}

/** The room that brackets need beside the film. Unit: px. */
export const BRACKET_ROOM = 16;

/** The room that brackets and the marks of the scan need together. Unit: px. */
export const SCAN_ROOM = 26;

export interface Hanging {
  readonly layout: StripLayout;
  /** Pictures of the whole strip. */
  readonly pictures: number;
  /** The first in sight, and how many are; fractions allowed. */
  readonly from: number;
  readonly shown: number;
  readonly picture: (place: number) => CanvasImageSource | null;
  readonly marks: HangingMarks;
}

function paintFilm(pen: Pen, strip: Hanging, rows: number, inks: HangingInks) {
  const { layout } = strip;
  pen.fillStyle = inks.film;
  pen.fillRect(0, 0, layout.width, rows * layout.pitch);
}

function paintHoles(pen: Pen, layout: StripLayout, rows: number, inks: HangingInks) {
  pen.fillStyle = inks.through;
  if (layout.plain) {
    const tall = Math.max(1, layout.pitch * 0.3);
    const first = layout.onFrameLine ? -tall / 2 : (layout.pitch - tall) / 2;
    for (const column of holeColumns(layout)) {
      for (let row = 0; row <= rows; row++) {
        pen.fillRect(column.x, first + row * layout.pitch, column.w, tall);
      }
    }
    return;
  }
  for (const hole of stripHoles(layout, rows)) {
    pen.beginPath();
    pen.roundRect(hole.x, hole.y, hole.w, hole.h, layout.radius);
    pen.fill();
  }
}

function paintPictures(pen: Pen, strip: Hanging, first: number, last: number, inks: HangingInks) {
  const { x, y, w, h } = strip.layout.picture;
  for (let place = first; place < last; place++) {
    const top = (place - first) * strip.layout.pitch + y;
    const picture = strip.picture(place);
    if (picture) {
      pen.drawImage(picture, x, top, w, h);
    } else {
      pen.fillStyle = inks.unseen;
      pen.fillRect(x, top, w, h);
    }
  }
}

function paintMarks(pen: Pen, strip: Hanging, first: number, inks: HangingInks) {
  const { layout, marks } = strip;
  const height = (at: number) => (at - first) * layout.pitch;
  pen.lineWidth = 3;
  pen.strokeStyle = inks.ink;
  for (const at of marks.breaks ?? []) {
    pen.beginPath();
    pen.moveTo(0, height(at));
    pen.lineTo(layout.width + 6, height(at));
    pen.stroke();
  }
  pen.strokeStyle = inks.ochre;
  const beside = layout.width + 7;
  for (const sign of marks.signs ?? []) {
    const [top, foot] = [height(sign.from), height(sign.to)];
    if (sign.kind === 'flash') {
      pen.fillStyle = inks.flag;
      pen.fillRect(layout.picture.x, top, layout.picture.w, Math.max(4, foot - top));
    }
    pen.setLineDash(sign.kind === 'whole' ? [6, 3] : []);
    pen.beginPath();
    if (sign.kind === 'part') pen.moveTo(layout.width + 2, top + 1.5);
    pen[sign.kind === 'part' ? 'lineTo' : 'moveTo'](beside, top + 1.5);
    pen.lineTo(
      sign.kind === 'flash' ? beside + 7 : beside,
      sign.kind === 'flash' ? top + 1.5 : foot,
    );
    if (sign.kind === 'part') pen.lineTo(layout.width + 2, foot);
    pen.stroke();
  }
  pen.setLineDash([]);
}

/** Where the marks of the scan stand, right of the brackets. Unit: px. */
const SCAN_AT = 20;

/**
 * Two bars for a frame shown too long, a gap with an arrow point for film left out,
 * a zigzag for blends, dots for what is counted.
 */
function paintScan(pen: Pen, strip: Hanging, first: number, inks: HangingInks) {
  const { layout, marks } = strip;
  const height = (at: number) => (at - first) * layout.pitch;
  const x = layout.width + SCAN_AT;
  pen.strokeStyle = inks.ink;
  for (const mark of marks.scan ?? []) {
    const [top, foot] = [height(mark.from), Math.max(height(mark.to), height(mark.from) + 6)];
    pen.lineWidth = 2.5;
    pen.setLineDash(mark.kind === 'counted' ? [2.5, 4] : []);
    pen.beginPath();
    if (mark.kind === 'doubled') {
      const middle = (top + foot) / 2;
      for (const y of [middle - 3, middle + 3]) {
        pen.moveTo(layout.width + 2, y);
        pen.lineTo(x + 4, y);
      }
    } else if (mark.kind === 'skip') {
      pen.moveTo(x + 4, top - 6);
      pen.lineTo(layout.width + 3, top);
      pen.lineTo(x + 4, top + 6);
    } else if (mark.kind === 'blended') {
      pen.lineWidth = 2;
      pen.moveTo(x - 3, top);
      for (let y = top + 4, way = 1; y < foot; y += 4, way = -way) pen.lineTo(x + 3 * way, y);
    } else {
      pen.moveTo(x, top);
      pen.lineTo(x, foot);
    }
    pen.stroke();
  }
  pen.setLineDash([]);
}

/** How a join is made, small, in leaves of film: lapped, patched, or butted aslant. */
const LEAVES: Record<string, readonly (readonly [number, number])[][]> = {
  cement: [
    [
      [0, -6],
      [10, -6],
      [10, 1],
      [0, 1],
      [0, -6],
    ],
    [
      [4, -1],
      [14, -1],
      [14, 6],
      [4, 6],
      [4, -1],
    ],
  ],
  tape: [
    [
      [1, -5],
      [13, -5],
      [13, 5],
      [1, 5],
      [1, -5],
    ],
  ],
  weld: [
    [
      [1, -6],
      [13, -6],
      [13, 6],
      [1, 6],
      [1, -6],
    ],
    [
      [1, 3],
      [13, -3],
    ],
  ],
  'not-known': [],
};

/** A pencil line across the film over the first frame after, and beside it how it is made. */
function paintJoins(pen: Pen, strip: Hanging, first: number, inks: HangingInks) {
  const { layout, marks } = strip;
  for (const join of marks.joins ?? []) {
    // A join at the very head is drawn whole.
    const y = Math.max(2, (join.at - first) * layout.pitch);
    pen.setLineDash([]);
    pen.strokeStyle = inks.pencil;
    pen.lineWidth = 3.5;
    pen.beginPath();
    pen.moveTo(0, y);
    pen.lineTo(layout.width + 8, y);
    pen.stroke();
    pen.strokeStyle = inks.ink;
    pen.lineWidth = 1.8;
    pen.setLineDash(join.kind === 'tape' ? [3, 2] : []);
    const middle = Math.max(8, y);
    for (const leaf of LEAVES[join.kind] ?? []) {
      pen.beginPath();
      leaf.forEach(([across, down], nth) =>
        pen[nth === 0 ? 'moveTo' : 'lineTo'](layout.width + 10 + across, middle + down),
      );
      pen.stroke();
    }
  }
  pen.setLineDash([]);
}

/** Paints what is in sight of a strip; the pen's origin is at the head of the first picture. */
export function paintHanging(pen: Pen, strip: Hanging, inks: HangingInks) {
  const first = Math.floor(strip.from);
  const last = Math.min(strip.pictures, Math.ceil(strip.from + strip.shown));
  const rows = Math.max(0, last - first);
  paintFilm(pen, strip, rows, inks);
  paintHoles(pen, strip.layout, rows, inks);
  paintPictures(pen, strip, first, last, inks);
  paintMarks(pen, strip, first, inks);
  paintScan(pen, strip, first, inks);
  paintJoins(pen, strip, first, inks);
}
