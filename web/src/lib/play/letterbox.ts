// Fitting a picture of true shape into whatever room there is.

import type { Rect } from '$lib/film/gauge_geometry';

/** Width and height in any one unit. */
export interface Shape {
  readonly w: number;
  readonly h: number;
}

/** The largest place of a shape inside a room, in its middle, on whole pixels. */
export function letterbox(room: Shape, shape: Shape): Rect {
  if (room.w <= 0 || room.h <= 0 || shape.w <= 0 || shape.h <= 0) {
    return { x: 0, y: 0, w: 0, h: 0 };
  }
  const scale = Math.min(room.w / shape.w, room.h / shape.h);
  const w = Math.min(room.w, Math.round(shape.w * scale));
  const h = Math.min(room.h, Math.round(shape.h * scale));
  return { x: Math.floor((room.w - w) / 2), y: Math.floor((room.h - h) / 2), w, h };
}

/** Words broken into lines that are no wider than the room. */
export function linesOf(words: string, measure: (line: string) => number, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of words.split(/\s+/).filter((each) => each !== '')) {
    const longer = line === '' ? word : `${line} ${word}`;
    if (line !== '' && measure(longer) > width) {
      lines.push(line);
      line = word;
    } else {
      line = longer;
    }
  }
  return line === '' ? lines : [...lines, line];
}
