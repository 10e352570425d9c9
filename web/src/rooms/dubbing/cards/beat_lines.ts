// Where the beats of a music lie on the chart.
import type { Speed } from '$lib/film/speed';
import type { Cue, SoundWords } from '../dub_types';

export interface BeatLine {
  /** Which beat of the sound, from 0. */
  readonly nth: number;
  /** Where it is heard. Unit: running frames, a fraction. */
  readonly at: number;
  /** The bar that begins with it, counted from 1. */
  readonly bar: number | null;
}

/** The beats that a cue plays; a sound that goes round has none, for its bars shift. */
export function beatLines(
  cue: Pick<Cue, 'at' | 'frames' | 'cue'>,
  sound: Pick<SoundWords, 'beats' | 'play' | 'facts'>,
  speed: Speed,
): readonly BeatLine[] {
  const { beats } = sound;
  if (!beats || cue.cue.looped) return [];
  const perSample = (speed.num / speed.den) * (1e6 / sound.play / sound.facts.rate);
  const over = cue.cue.to ?? sound.facts.samples;
  return beats.at.flatMap((sample, nth) => {
    const at = cue.at + (sample - cue.cue.from) * perSample;
    if (sample < cue.cue.from || sample > over || at > cue.at + cue.frames) return [];
    const into = nth - beats.first_bar;
    const begins = into >= 0 && into % Math.max(beats.in_a_bar, 1) === 0;
    return [{ nth, at, bar: begins ? into / Math.max(beats.in_a_bar, 1) + 1 : null }];
  });
}
