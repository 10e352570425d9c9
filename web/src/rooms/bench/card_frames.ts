// The frames of a frame card as they lie on the bench: heads up, thrown film hatched.
import { frameName } from '$lib/film/frame_name';
import type { FilmFrame } from '$lib/ui/film/film_frame';
import type { CutPlace, LandmarkCount } from './bench_types';

type Picture = (roll: string, frame: number) => string | undefined;

export interface EndOfStrip {
  readonly frames: readonly FilmFrame[];
  /** The frame below the blade; none where the roll ends. */
  readonly cut: number | undefined;
}

function thrown(place: CutPlace, end: 'head' | 'tail'): string {
  if (place.thrown_in) return `wanted in shot ${place.thrown_in}`;
  return end === 'head' ? 'last thrown' : 'first thrown';
}

/** One end of a strip, from the head down. */
export function endOfStrip(
  roll: string,
  place: CutPlace,
  end: 'head' | 'tail',
  picture: Picture,
): EndOfStrip {
  const of = (frame: number, state: FilmFrame['state'], words: string): FilmFrame => ({
    name: frameName(roll, frame),
    picture: picture(roll, frame),
    state,
    words,
  });
  const kept = of(place.kept, 'kept', end === 'head' ? 'first kept' : 'last kept');
  const eaten = Array.from({ length: place.eaten }, (_, nth) =>
    of(
      end === 'head' ? place.kept - place.eaten + nth : place.kept + 1 + nth,
      'eaten',
      'for the join',
    ),
  );
  const beyond =
    typeof place.thrown === 'number' ? [of(place.thrown, 'thrown', thrown(place, end))] : [];
  const frames = end === 'head' ? [...beyond, ...eaten, kept] : [kept, ...eaten, ...beyond];
  const cut = end === 'head' ? beyond.length : 1 + eaten.length;
  return { frames, cut: place.blade === 'roll_ends' ? undefined : cut };
}

/** The strong changes that are counted from at this end, nearest last, each once. */
export function changesCounted(place: CutPlace): LandmarkCount[] {
  const all = [...place.chain, ...(place.nearer ? [place.nearer] : [])];
  const changes = all.filter((one) => one.kind === 'change');
  return changes.filter((one, nth) => changes.findIndex((other) => other.at === one.at) === nth);
}

/** What is done at this end, where it is not a cut. */
export function bladeWords(blade: string): string {
  if (blade === 'cut_before') return 'cut already';
  return blade === 'roll_ends' ? 'the roll ends here' : '';
}
