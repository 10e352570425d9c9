// The picture of a frame that nobody has scanned: paper with a slanted line,
// drawn once for each palette.
import { token } from '../../look/bench_watch';

const drawn = new Map<string, HTMLCanvasElement>();

/** A blank frame in the inks of a place; null where it cannot be drawn. */
export function blankFrame(at: Element | undefined): CanvasImageSource | null {
  if (!at) return null;
  const [paper, ink] = [token(at, 'tag'), token(at, 'edge')];
  const found = drawn.get(paper + ink);
  if (found) return found;
  const canvas = document.createElement('canvas');
  [canvas.width, canvas.height] = [96, 66];
  const pen = canvas.getContext('2d');
  if (!pen) return null;
  pen.fillStyle = paper;
  pen.fillRect(0, 0, 96, 66);
  pen.strokeStyle = ink;
  pen.lineWidth = 2;
  for (let x = -66; x < 96; x += 22) {
    pen.moveTo(x, 66);
    pen.lineTo(x + 66, 0);
  }
  pen.stroke();
  drawn.set(paper + ink, canvas);
  return canvas;
}
