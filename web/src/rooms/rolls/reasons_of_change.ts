// What speaks for a change, in sentences, and the counts behind it.
import type { RollLog } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { speedFrom, speedWords } from '$lib/film/speed';
import { joinSentence } from './joins_found';
import { signMeasure, stopsWords } from './words_of_roll';
import type { BreakSeen, FilmChanged } from './changes_of_roll';
import type { PlateOf } from './plates_of_roll';

/** From where on a measure is worth a sentence; the reading's own limits. */
const WORTH = { rack: 40, edge: 10, light: 0.15, stays: 0.5 } as const;
/** From where on a break is told. */
const TOLD = { everywhere: 0.4, inOnePlace: 0.15 } as const;

const perCent = (share: number) => `${Math.round(share * 100)} %`;
const times = (count: number) => (count < 10 ? count.toFixed(1) : String(Math.round(count)));

/** Over-exposed frames at the start; what a person keeps goes before what was seen. */
function flashOf(change: FilmChanged): { frames: number; stops: number } | null {
  const { take, seen } = change;
  const told = take && take.flash_frames > 0 ? take : seen;
  const stops = told?.flash_stops ?? null;
  return told && told.flash_frames > 0 && stops !== null
    ? { frames: told.flash_frames, stops }
    : null;
}

function seenReasons(seen: BreakSeen): string[] {
  const said: string[] = [];
  if (seen.strength !== null && seen.strength !== undefined) {
    said.push(
      `${perCent(seen.changed)} of the picture changes, ${times(seen.stands_out)} times as much as at the frames about it.`,
    );
  }
  if (seen.in_one_place) said.push('One part of the picture alone speaks for it.');
  if (seen.begins === 'camera_stop' && seen.stays >= WORTH.stays) {
    said.push(`The set-up goes on: ${perCent(seen.stays)} of the picture stays in its place.`);
  }
  if (seen.rack >= WORTH.rack) {
    said.push(
      `A frame sits ${(seen.rack / 10).toFixed(1)} % of its height out of its place, as at a join.`,
    );
  }
  if (seen.edge >= WORTH.edge) {
    said.push('A line lies across the frame, as the edge of a tape or an overlap does.');
  }
  if (Math.abs(seen.exposure_step) >= WORTH.light) {
    const way = seen.exposure_step > 0 ? 'more' : 'less';
    said.push(
      `Behind it there is ${Math.abs(seen.exposure_step).toFixed(1)} stop ${way} light than before.`,
    );
  }
  return said;
}

function spanReasons(change: FilmChanged): string[] {
  const { span } = change;
  if (!span) return [];
  const from = `from ${grouped(span.in)} to ${grouped(span.out - 1)}`;
  switch (span.kind) {
    case 'fade_in':
      return [`The light comes up out of black ${from}.`];
    case 'fade_out':
      return [`The light goes down into black ${from}.`];
    case 'dissolve':
      return [
        `One picture turns into another ${from}. The take is taken to begin in the middle, where most of the light is its own.`,
      ];
    case 'fog':
      return [`Stray light lies on the film ${from}, as on the first and last turns of a roll.`];
    case 'leader':
      return [`Film without a picture ${from}: ${signMeasure(span)}.`];
    case 'black':
      return [`Nothing was exposed ${from}.`];
    default:
      return [
        `${stopsWords(span.measure)} of light ${from}, and the take goes on: lightning, or a camera that hesitated.`,
      ];
  }
}

/** Everything that speaks for a change, strongest first. */
export function reasonsOf(change: FilmChanged, log: RollLog): string[] {
  const said = spanReasons(change);
  if (change.found) {
    said.push(joinSentence(change.found));
    if (change.found.note) said.push(`Written beside it: ${change.found.note}`);
  }
  const flash = flashOf(change);
  if (flash) {
    const frames =
      flash.frames === 1 ? 'The first frame is' : `The first ${flash.frames} frames are`;
    said.push(`${frames} over, by ${stopsWords(flash.stops)}: the camera was starting.`);
  }
  if (change.seen) said.push(...seenReasons(change.seen));
  if (said.length > 0 || change.state === 'told') return said;
  if (change.take?.begins === 'fog') return ['Here the fog of the first turns ends.'];
  if ((log.report?.breaks.length ?? 0) > 0) {
    return ['The reading saw no break here. Somebody set it.'];
  }
  return ['What spoke for it was not kept. Where the roll is read anew, it is.'];
}

function strengthPlate(seen: BreakSeen): PlateOf[] {
  const { strength } = seen;
  if (strength === null || strength === undefined) return [];
  const least = seen.in_one_place ? TOLD.inOnePlace : TOLD.everywhere;
  return [
    {
      label: 'strength of the break',
      parts: [{ words: 'strength' }, { count: strength.toFixed(1) }],
      sum: [
        {
          sum: `${seen.changed.toFixed(2)} of the picture × ${times(seen.stands_out)} times the rest`,
          comes: strength.toFixed(2),
        },
        { sum: 'a break is told from', comes: String(least) },
      ],
    },
  ];
}

/** What was measured at a change, each count with the sum behind it. */
export function changePlates(change: FilmChanged, log: RollLog): PlateOf[] {
  const plates: PlateOf[] = change.seen ? strengthPlate(change.seen) : [];
  const flash = flashOf(change);
  if (!flash) return plates;
  plates.push({
    label: 'flash at the start',
    parts: [{ count: stopsWords(flash.stops) }],
  });
  const start = change.take?.start_speed;
  if (start !== null && start !== undefined) {
    const speed = speedWords(speedFrom(log.film_speed));
    const open = (2 ** flash.stops).toFixed(2);
    plates.push({
      label: 'speed of the camera at its start',
      parts: [{ words: 'started at' }, { count: start.toFixed(1) }, { words: 'f/s' }],
      sum: [
        {
          sum: `${flash.stops.toFixed(2)} stop over: open 2^${flash.stops.toFixed(2)} times as long`,
          comes: open,
        },
        { sum: `${speed} f/s ÷ ${open}`, comes: `${start.toFixed(1)} f/s` },
      ],
    });
  }
  return plates;
}

/** Said when a change is come to: `Camera stop at R1 390, not looked at yet`. */
export function changeSaid(roll: string, change: FilmChanged): string {
  const words = change.words.charAt(0).toUpperCase() + change.words.slice(1);
  return [`${words} at ${roll} ${grouped(change.at)}`, STATE_SAID[change.state]]
    .filter(Boolean)
    .join(', ');
}

const STATE_SAID: Record<FilmChanged['state'], string> = {
  'to look at': 'not looked at yet',
  stands: 'it stands',
  'taken back': 'no take begins there',
  told: '',
};
