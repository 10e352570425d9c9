// What the library says of a sound.
import type { SoundWords } from './dub_types';
import { levelText } from './level_line';

type Facts = SoundWords['facts'];

/** `4.2 s`, `1:05.0`: to a tenth. Unit of what is given: milliseconds. */
export function lastsSaid(milliseconds: number): string {
  const tenths = Math.round(milliseconds / 100);
  const [minutes, rest] = [Math.floor(tenths / 600), tenths % 600];
  const seconds = `${Math.floor(rest / 10)}.${rest % 10}`;
  return minutes === 0 ? `${seconds} s` : `${minutes}:${seconds.padStart(4, '0')}`;
}

/** `48 kHz, mono, peak −3 dB, −23.1 LUFS`. */
export function factsSaid(facts: Facts): string {
  const channels = facts.channels_found;
  return [
    `${String(facts.rate / 1000)} kHz`,
    channels === 1 ? 'mono' : channels === 2 ? 'stereo' : `${channels} channels`,
    facts.peak === null ? 'silent' : `peak ${levelText(facts.peak)}`,
    facts.loudness === null ? '' : levelText(facts.loudness).replace('dB', 'LUFS'),
  ]
    .filter(Boolean)
    .join(', ');
}
