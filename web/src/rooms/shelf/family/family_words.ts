// How cameras, shots and kinships of family reels are called and drawn.
import type { CopyFinding, FamilyCamera, FamilyPair, FamilyShot } from '$lib/api/wire';

/** Cameras get letters: they have no other name yet. */
export function cameraLetter(number: number): string {
  const letter = String.fromCharCode(65 + (number % 26));
  return number < 26 ? letter : `${letter}${Math.floor(number / 26)}`;
}

/** A shot by its frames, with its film where there are several. */
export function shotName(shot: FamilyShot, several: boolean): string {
  const film = several && shot.film ? `${shot.film}/` : '';
  return `${film}${shot.roll}·${shot.in}–${shot.out - 1}`;
}

/** Sure to so many of 100; what is no whole certainty is never called 100. */
export function ofHundred(probability: number): string {
  return `${Math.min(99, Math.round(probability * 100))} of 100`;
}

/** The frame whose picture stands for a shot: a third into it. */
export function faceOf(shot: FamilyShot): number {
  return shot.in + Math.floor((shot.out - shot.in) / 3);
}

/** What stands between two strips of an order. */
export function betweenWords(pair: FamilyPair): string {
  return pair.told ? `then, sure to ${ofHundred(pair.before)}` : 'or the other way about';
}

/** How much more uneven a gate is drawn than it is, so that an eye sees it. */
export const UNEVEN = 10;

type Point = readonly number[];

function middle(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(sorted.length / 2)] ?? 0;
}

/** One side with its unevenness made larger; `axis` is the one across the side. */
function exaggerated(side: readonly Point[], axis: 0 | 1): string[] {
  const at = middle(side.map((point) => point[axis] ?? 0));
  return side.map((point) => {
    const out = [point[0] ?? 0, point[1] ?? 0];
    out[axis] = at + ((point[axis] ?? 0) - at) * UNEVEN;
    return out.map((value) => value.toFixed(1)).join(',');
  });
}

/** The outline of a gate as the points of an SVG polygon, its unevenness made larger. */
export function gatePoints(camera: Pick<FamilyCamera, 'outline'>): string {
  const [left = [], right = [], top = [], bottom = []] = camera.outline;
  return [
    ...exaggerated(top, 1),
    ...exaggerated(right, 0),
    ...exaggerated(bottom, 1).reverse(),
    ...exaggerated(left, 0).reverse(),
  ].join(' ');
}

/** A hair as a line from its edge into the picture, in thousandths of the width. */
export function hairLine(
  hair: { side: string; along: number; length: number },
  height: number,
): { x1: number; y1: number; x2: number; y2: number } {
  const { side, along, length } = hair;
  if (side === 'left') return { x1: -500, y1: along, x2: length - 500, y2: along };
  if (side === 'right') return { x1: 500, y1: along, x2: 500 - length, y2: along };
  const edge = side === 'top' ? -height / 2 : height / 2;
  const into = side === 'top' ? length : -length;
  return { x1: along, y1: edge, x2: along, y2: edge + into };
}

/** What one finding speaks for: the kinships it makes at least half as probable as any. */
export function speaksFor(finding: CopyFinding): string[] {
  return finding.speaks.filter((one) => one.share >= 0.5).map((one) => one.kinship);
}

const KINDS: Record<string, string> = {
  dirt: 'Dirt',
  dirt_shared: 'Dirt that both show',
  window: 'The window',
  sharpness: 'Sharpness',
  contrast: 'Contrast',
};

export const kindWords = (kind: string) => KINDS[kind] ?? kind;

/** A kinship in few words, with the names of both copies. */
export function kinshipShort(kinship: string, first: string, second: string): string {
  if (kinship === 'first_is_nearer') return `${first} is nearer`;
  if (kinship === 'second_is_nearer') return `${second} is nearer`;
  return kinship === 'of_a_third' ? 'both of a third' : 'one strip';
}
