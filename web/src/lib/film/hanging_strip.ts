// A hanging strip shows one picture for several frames. Which frames those
// are, and which frame lies under a finger.

import type { Span } from './span';

/** Pictures of a take as it hangs: one stands for `each` frames, the last perhaps for fewer. */
export interface HungPicture {
  /** The frame shown: the first that it stands for. */
  readonly frame: number;
  /** How many frames it stands for. */
  readonly standsFor: number;
}

/** The fewest frames for one picture so that the strip is no longer than asked. */
export function framesForEach(frames: number, picturesAtMost: number): number {
  return Math.max(1, Math.ceil(frames / Math.max(1, picturesAtMost)));
}

/** The pictures of a strip, from the head down. */
export function hungPictures(of: Span, each: number): HungPicture[] {
  const step = Math.max(1, Math.floor(each));
  const count = Math.ceil((of.thrown - of.first) / step);
  return Array.from({ length: count }, (_, row) => {
    const frame = of.first + row * step;
    return { frame, standsFor: Math.min(step, of.thrown - frame) };
  });
}

/** The frame at a height of a hanging strip, kept inside it. */
export function frameAtHeight(of: Span, each: number, pitch: number, y: number): number {
  const frame = of.first + Math.floor((y / pitch) * each);
  return Math.min(Math.max(frame, of.first), of.thrown - 1);
}

/** The height at which a frame begins. */
export function heightOfFrame(of: Span, each: number, pitch: number, frame: number): number {
  return ((frame - of.first) / each) * pitch;
}

/** `One picture every 36 frames.`, `Every frame.` */
export function hungWords(each: number): string {
  return each <= 1 ? 'Every frame.' : `One picture every ${each} frames.`;
}
