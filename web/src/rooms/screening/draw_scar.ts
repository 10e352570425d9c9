// How a join shows on a screen: drawn over the frames that it marks.
import type { Rect } from '$lib/film/gauge_geometry';
import type { Over, ScreenLook } from '$lib/play/screen';
import type { Scar } from './join_scars';

/** The lap of cement over a frame: this part of the picture's height, as 1.40 of 4.01 mm. */
const LAP = 0.35;

/** What is drawn over a frame with these marks. */
export function overScars(scars: readonly Scar[]): Over {
  return (on, at, look) => {
    on.save();
    on.beginPath();
    on.rect(at.x, at.y, at.w, at.h);
    on.clip();
    for (const scar of scars) DRAWN[scar.kind](on, at, look, scar);
    on.restore();
  };
}

type Draw = (on: CanvasRenderingContext2D, at: Rect, look: ScreenLook, scar: Scar) => void;

const DRAWN: Record<Scar['kind'], Draw> = { tape, cement, weld };

/** The frame line where the join lies: at the foot of what goes out, the head of what comes in. */
function lineAt(at: Rect, scar: Scar): number {
  return scar.side === 'out' ? at.y + at.h : at.y;
}

/** A shade over the whole frame; where the patch ends its edge, a little askew, and dust on it. */
function tape(on: CanvasRenderingContext2D, at: Rect, look: ScreenLook, scar: Scar): void {
  on.globalAlpha = 0.22;
  on.fillStyle = look.black;
  on.fillRect(at.x, at.y, at.w, at.h);
  const thin = Math.max(1, at.h / 220);
  bubbles(on, at, look, scar);
  if (scar.off === 0) bar(on, at, look.black, lineAt(at, scar), thin * 4, 0, 0.75);
  if (!scar.isEdge) return;
  // The other end of the frame: the patch reaches up to the next frame line.
  const inside = at.h * 0.03;
  const edge = scar.side === 'out' ? at.y + inside : at.y + at.h - inside;
  bar(on, at, look.white, edge, thin * 2, at.h * 0.006, 0.7);
  bar(on, at, look.black, edge + thin * 2, thin * 2, at.h * 0.006, 0.6);
}

/** The lap: a dark band that ends sharp, with the scraped edge bright beside it. */
function cement(on: CanvasRenderingContext2D, at: Rect, look: ScreenLook, scar: Scar): void {
  const lap = at.h * LAP;
  const line = lineAt(at, scar);
  const top = scar.side === 'out' ? line - lap : line;
  on.globalAlpha = 0.55;
  on.fillStyle = look.black;
  on.fillRect(at.x, top, at.w, lap);
  const end = scar.side === 'out' ? top : top + lap;
  const thin = Math.max(1, at.h / 220);
  bar(on, at, look.black, end, thin * 3, 0, 0.9);
  bar(on, at, look.white, end + (scar.side === 'out' ? -thin * 3 : thin * 3), thin, 0, 0.5);
}

/** One line where the ends ran together. */
function weld(on: CanvasRenderingContext2D, at: Rect, look: ScreenLook, scar: Scar): void {
  const thin = Math.max(1, at.h / 220);
  const line = lineAt(at, scar) + (scar.side === 'out' ? -thin * 4 : thin * 4);
  bar(on, at, look.black, line, thin * 4, 0, 0.85);
  bar(on, at, look.white, line + (scar.side === 'out' ? -thin * 3 : thin * 3), thin, 0, 0.45);
}

/** A line across the picture, so far askew from side to side. */
function bar(
  on: CanvasRenderingContext2D,
  at: Rect,
  colour: string,
  y: number,
  wide: number,
  askew: number,
  alpha: number,
): void {
  on.globalAlpha = alpha;
  on.strokeStyle = colour;
  on.lineWidth = wide;
  on.beginPath();
  on.moveTo(at.x, y - askew);
  on.lineTo(at.x + at.w, y + askew);
  on.stroke();
}

/** Air under the tape: always in the same places of one join, so that a frame looks the same again. */
function bubbles(on: CanvasRenderingContext2D, at: Rect, look: ScreenLook, scar: Scar): void {
  on.globalAlpha = 0.35;
  on.strokeStyle = look.white;
  on.lineWidth = Math.max(1, at.h / 400);
  let seed = (scar.join + 2) * 7919 + scar.off * 104729 + (scar.side === 'in' ? 31 : 0);
  const next = () => {
    seed = (seed * 1103515245 + 12345) % 2147483648;
    return seed / 2147483648;
  };
  for (let count = 0; count < 5; count += 1) {
    const [x, y, r] = [next(), next(), next()];
    on.beginPath();
    on.arc(at.x + x * at.w, at.y + y * at.h, (0.004 + r * 0.01) * at.h, 0, Math.PI * 2);
    on.stroke();
  }
}
