// What the room says of a roll, its takes and its frames.
import type { RollHead, RollLog, Sign, Take } from '$lib/api/wire';
import { frameSpoken } from '$lib/film/frame_name';
import { grouped, signed } from '$lib/film/grouped';
import type { Length } from './lengths';

/** `1 frame`, `3,600 frames`. */
export function framesWords(count: number): string {
  return `${grouped(count)} ${count === 1 ? 'frame' : 'frames'}`;
}

/** `1 take`, `10 takes`; any thing that takes an s. */
export function countWords(count: number, thing: string): string {
  return `${grouped(count)} ${thing}${count === 1 ? '' : 's'}`;
}

/** `3A-T2`; null while the take has no name. */
export function slateOf(take: Pick<Take, 'setup' | 'take'>): string | null {
  return take.setup && take.take ? `${take.setup}-T${take.take}` : null;
}

/** The name of a length on its tag: its slate, else its number on the roll. */
export function lengthName(length: Length): string {
  if (!length.take) return 'no take';
  return slateOf(length.take) ?? `take ${length.number}`;
}

/** `1352–1567`: first and last frame. */
export function rangeShort(length: Pick<Length, 'first' | 'thrown'>): string {
  return `${length.first}–${length.thrown - 1}`;
}

const BEGINS: Record<string, string> = {
  roll_start: 'head of the roll',
  fog: 'end of the fog',
  camera_stop: 'camera stop',
  join: 'join',
  cut: 'break',
  fade: 'fade',
};

/** How a take begins, as it stands beside the break. */
export function beginsWords(begins: string): string {
  return BEGINS[begins] ?? 'break';
}

/** `+ 1.2 stop`. */
export function stopsWords(stops: number): string {
  const sign = stops < 0 ? '−' : '+';
  return `${sign} ${Math.abs(stops).toFixed(1)} stop`;
}

/** The measure of a sign on its flag: `24 fr`, `0.41 of 3-T2`. */
export function signMeasure(sign: Sign): string {
  if (sign.unit === 'frames') return `${grouped(sign.out - sign.in)} fr`;
  const places = Number.isInteger(sign.measure) ? 0 : 2;
  return `${sign.measure.toFixed(places)} ${sign.unit}`.trim();
}

/** Where a sign lies and what was measured: `Fog 0 to 23.` */
export function signSentence(sign: Sign): string {
  const kind = sign.kind.charAt(0).toUpperCase() + sign.kind.slice(1);
  const where = sign.where ? `, ${sign.where}` : '';
  const last = sign.out - 1;
  const place = last > sign.in ? `${grouped(sign.in)} to ${grouped(last)}` : grouped(sign.in);
  const measure = sign.unit === 'frames' ? '' : `: ${signMeasure(sign)}`;
  return `${kind}${where} at ${place}${measure}.`;
}

/** `R1 agrees with the ruler.` and what else may be found. */
export function rulerHeading(roll: RollHead): string {
  const name = roll.roll;
  if (roll.paper) return `${name} is known on paper only`;
  if (roll.expected === null || roll.expected === undefined) return `Nobody has measured ${name}`;
  const off = roll.difference ?? roll.frames - roll.expected;
  if (off === 0) {
    return roll.missing > 0
      ? `${name} agrees with the ruler, but ${framesWords(roll.missing)} were not seen`
      : `${name} agrees with the ruler`;
  }
  const side = off < 0 ? 'short of' : 'longer than';
  return `${name} is ${framesWords(Math.abs(off))} ${side} the ruler`;
}

/** Where all fog lies: `Fog 0 to 23 and 3,572 to 3,599.`; empty without. */
export function fogWords(signs: readonly Sign[]): string {
  const places = signs
    .filter((sign) => sign.kind === 'fog' && sign.unit === 'frames')
    .map((sign) => `${grouped(sign.in)} to ${grouped(sign.out - 1)}`);
  if (places.length === 0) return '';
  const last = places.at(-1);
  return `Fog ${places.length > 1 ? `${places.slice(0, -1).join(', ')} and ${last}` : last}.`;
}

/** The take whose first frame is most over, and by how much. */
export function brightestFlash(takes: readonly Take[]): { at: number; stops: number } | null {
  let found: { at: number; stops: number } | null = null;
  for (const take of takes) {
    const stops = take.flash_stops;
    if (take.flash_frames < 1 || stops === null || stops === undefined) continue;
    if (!found || stops > found.stops) found = { at: take.in, stops };
  }
  return found;
}

/** `11 boundaries, 10 takes, 10 flash frames.` */
export function foundWords(boundaries: number, takes: readonly Take[]): string {
  const flash = takes.reduce((sum, take) => sum + take.flash_frames, 0);
  const edges = boundaries === 1 ? '1 boundary' : `${grouped(boundaries)} boundaries`;
  const parts = [edges, countWords(takes.length, 'take')];
  if (flash > 0) parts.push(countWords(flash, 'flash frame'));
  return `${parts.join(', ')}.`;
}

/** Said at each step: `R1 547, take 3B-T2, frame 78 of 345`. */
export function stepSaid(roll: string, frame: number, length: Length | null): string {
  if (!length) return frameSpoken(roll, frame);
  const of = `frame ${frame - length.first + 1} of ${length.thrown - length.first}`;
  if (!length.take) return `${frameSpoken(roll, frame)}, in no take, ${of}`;
  const slate = slateOf(length.take);
  const name = slate ? `take ${slate}` : `take ${length.number}, not named`;
  return `${frameSpoken(roll, frame)}, ${name}, ${of}`;
}

/** Said when a take is come to: `Take 3B-T2, 5 of 10, R2 470, 198 frames, circled`. */
export function takeSaid(roll: string, length: Length, takes: number): string {
  const long = framesWords(length.thrown - length.first);
  if (!length.take) return `In no take, ${frameSpoken(roll, length.first)}, ${long}`;
  const slate = slateOf(length.take);
  const name = slate
    ? `Take ${slate}, ${length.number} of ${takes}`
    : `Take ${length.number} of ${takes}, not named`;
  const rating = ratingWords(length.take.rating);
  return [name, frameSpoken(roll, length.first), long, rating].filter(Boolean).join(', ');
}

/** The rating as it is said; empty for none. */
export function ratingWords(rating: string | undefined): string {
  return rating === 'circled' || rating === 'hold' ? rating : rating === 'ng' ? 'NG' : '';
}

/** `Difference 0. `; empty where nobody has measured. */
export function differenceWords(log: RollLog): string {
  const { difference, expected } = log.roll;
  if (expected === null || expected === undefined) return '';
  return `Difference ${signed(difference ?? log.roll.frames - expected)}. `;
}

/** `R4`: the next name in the order of those that are there. */
export function nextRollName(taken: readonly string[]): string {
  const numbers = taken.map((name) => /^R(\d+)$/i.exec(name)?.[1]).filter((n) => n !== undefined);
  const highest = Math.max(0, ...numbers.map(Number));
  return `R${highest + 1}`;
}
