// How long a cue is that says no length of its own: as its sound.
import { type Speed } from '$lib/film/speed';
import type { CueWords, Sound } from './dub_types';

/** As the program counts it, exactly: the frames its sound is heard in, rounded up. */
export function framesOf(
  cue: Pick<CueWords, 'frames' | 'from' | 'to' | 'sound'>,
  sounds: readonly Sound[],
  speed: Speed,
): number {
  if (cue.frames !== null) return cue.frames;
  const sound = sounds.find((one) => one.id === cue.sound)?.sound;
  if (!sound) return 1;
  const samples = Math.max((cue.to ?? sound.facts.samples) - cue.from, 0);
  const over = BigInt(samples) * BigInt(speed.num) * 1_000_000n;
  const under = BigInt(sound.facts.rate) * BigInt(speed.den) * BigInt(Math.max(sound.play, 1));
  return Math.max(1, Number((over + under - 1n) / (under || 1n)));
}
