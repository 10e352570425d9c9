// The signs that lie on a take, and how they are drawn where it hangs.
import type { RollLog, Sign } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { missingRuns, type Length } from './lengths';
import { signMeasure, stopsWords } from './words_of_roll';

/** A sign as far as it lies on one take. */
export interface SignOfTake {
  /** `flash`, `fog`, `hair`; also `not seen` for frames that no scan shows. */
  readonly kind: string;
  readonly first: number;
  readonly thrown: number;
  readonly measure: string;
  /** Where in the picture, and the like. */
  readonly where: string | null;
  readonly covers: 'part' | 'whole' | 'flash';
  /** The part of the picture to ring. */
  readonly area: SignArea | null;
  /** The frame that has most of it and the one that has least, where they were measured. */
  readonly most: number | null;
  readonly least: number | null;
}

/** A part of the picture, in thousandths of it. */
export type SignArea = NonNullable<Sign['area']>;

function signOf(sign: Sign, length: Length): SignOfTake | null {
  const first = Math.max(sign.in, length.first);
  const thrown = Math.min(sign.out, length.thrown);
  if (thrown <= first) return null;
  const whole = first === length.first && thrown === length.thrown;
  const flash = sign.kind === 'flash';
  return {
    kind: sign.kind,
    first,
    thrown,
    measure: flash ? stopsWords(sign.measure) : signMeasure(sign),
    where: sign.where ?? null,
    area: sign.area ?? null,
    most: sign.most ?? null,
    least: sign.least ?? null,
    covers: flash ? 'flash' : whole ? 'whole' : 'part',
  };
}

/** The over-exposed frames at the start of a take. */
function flashOf(length: Length): SignOfTake | null {
  const take = length.take;
  if (!take || take.flash_frames < 1) return null;
  const stops = take.flash_stops;
  return {
    kind: 'flash',
    first: length.first,
    thrown: length.first + take.flash_frames,
    measure: stops === null || stops === undefined ? '' : stopsWords(stops),
    where: null,
    area: null,
    most: null,
    least: null,
    covers: 'flash',
  };
}

/** The signs of a length, from its head down. */
export function signsOf(log: RollLog, length: Length): SignOfTake[] {
  const start = flashOf(length);
  const told = (log.report?.signs ?? [])
    .map((sign) => signOf(sign, length))
    .filter((sign) => sign !== null)
    // The flash at the start is told by the take itself.
    .filter((sign) => !(start && sign.kind === 'flash' && sign.first === start.first));
  const unseen = missingRuns(log)
    .map((run) =>
      signOf(
        { kind: 'not seen', in: run.first, out: run.thrown, measure: 0, unit: 'frames' },
        length,
      ),
    )
    .filter((sign) => sign !== null);
  const all = [...(start ? [start] : []), ...told, ...unseen];
  return all.sort((a, b) => a.first - b.first || a.thrown - b.thrown);
}

/** The brackets beside hanging film, counted in pictures from its head. */
export function stripMarks(signs: readonly SignOfTake[], length: Length, each: number) {
  const at = (frame: number) => (frame - length.first) / each;
  return {
    signs: signs.map((sign) => ({
      from: at(sign.first),
      to: at(sign.thrown),
      kind: sign.covers,
    })),
  };
}

export interface PlacedFlag {
  readonly key: string;
  readonly kind: string;
  readonly measure: string | undefined;
  /** Unit: px. */
  readonly top: number;
}

/** A flag's own height, so that none lies on another. Unit: px. */
export const FLAG = 44;

/** What most of a take has a little of is said on its card and has no flag. */
const ALL_OVER = ['shake', 'weave', 'flicker', 'dust'];
/** Film that a flag takes up, in letters of the page. Unit: rem. */
const FILM_OF_A_FLAG = 4.6;

/**
 * The signs whose flags hang: no more than the film is long for, the card has all.
 * A flash begins nearly every take: its mark says so, and its flag hangs last, where
 * one is.
 *
 * @param long how long the film hangs. Unit: px.
 * @param letter height of a letter. Unit: px.
 */
export function hangingSigns(
  signs: readonly SignOfTake[],
  chosen: boolean,
  long: number,
  letter: number,
): SignOfTake[] {
  const most = Math.max(1, Math.floor(long / (FILM_OF_A_FLAG * letter)));
  const placed = signs.filter((sign) => sign.kind !== 'flash' && !ALL_OVER.includes(sign.kind));
  const flashes = chosen ? signs.filter((sign) => sign.kind === 'flash') : [];
  const hang = new Set([...placed, ...flashes].slice(0, most));
  return signs.filter((sign) => hang.has(sign));
}

/** A measure as short as a flag: what it is a share of is said on the card. */
function shortMeasure(measure: string): string {
  return measure.split(' of ')[0] ?? measure;
}

/** Where the flags hang; each at the head of its sign, or under the flag before. */
export function flagsOf(
  signs: readonly SignOfTake[],
  height: (frame: number) => number,
  foot: number,
): PlacedFlag[] {
  let free = 0;
  return signs.map((sign, place) => {
    // A sign over a whole take is flagged under its foot, where nothing is hidden.
    const wanted = sign.covers === 'whole' ? foot + 6 : height(sign.first) + 6;
    const top = Math.max(wanted, free);
    free = top + FLAG;
    return {
      key: `${sign.kind} ${sign.first} ${place}`,
      kind: sign.kind,
      measure: shortMeasure(sign.measure) || undefined,
      top,
    };
  });
}

/** `Flash at 390: + 1.1 stop.` */
export function signWords(sign: SignOfTake): string {
  const last = sign.thrown - 1;
  const kind = sign.kind.charAt(0).toUpperCase() + sign.kind.slice(1);
  const where = sign.where ? `, ${sign.where},` : '';
  const place =
    last > sign.first
      ? `from ${grouped(sign.first)} to ${grouped(last)}`
      : `at ${grouped(sign.first)}`;
  return `${kind}${where} ${place}${sign.measure ? `: ${sign.measure}` : ''}.`;
}
