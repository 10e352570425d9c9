// The small frames of the strip beside the chart: as many as there is room for.
import { type ChartScale, overlaps, type Stretch } from './chart_scale';
import type { PieceOnChart } from './dub_types';

export interface Tile {
  readonly key: string;
  readonly y: number;
  readonly height: number;
  readonly roll: string;
  readonly frame: number;
}

/** Pictures of so much height, each the frame that runs at its top. */
export function tilesOf(
  pieces: readonly PieceOnChart[],
  seen: Stretch,
  scale: ChartScale,
  height: number,
): Tile[] {
  const tiles: Tile[] = [];
  for (const piece of pieces) {
    const { roll } = piece;
    if (!roll || !overlaps(piece.at, piece.frames, seen)) continue;
    const top = scale.y(piece.at);
    const end = scale.y(piece.at + piece.frames);
    // Near, one picture is one frame; far, it stands for several.
    const step = Math.max(height, scale.frame);
    const [above, below] = [scale.y(seen.from), scale.y(seen.to)];
    const skipped = Math.max(0, Math.floor((above - top) / step));
    for (let y = top + skipped * step; y < Math.min(end, below); y += step) {
      const off = Math.min(Math.max(scale.frameAt(y) - piece.at, 0), piece.frames - 1);
      const frame = piece.first + off;
      tiles.push({
        key: `${piece.position} ${frame} ${Math.round(y)}`,
        y,
        height: Math.min(step, end - y),
        roll,
        frame,
      });
    }
  }
  return tiles;
}

/** Moves of faders side by side: each in the first lane that is free. */
export function lanesOf<T extends { readonly from: number; readonly to: number }>(
  moves: readonly T[],
): { readonly move: T; readonly lane: number }[] {
  const ends: number[] = [];
  return [...moves]
    .sort((one, other) => one.from - other.from)
    .map((move) => {
      const free = ends.findIndex((end) => end <= move.from);
      const lane = free < 0 ? ends.length : free;
      ends[lane] = move.to;
      return { move, lane };
    });
}
