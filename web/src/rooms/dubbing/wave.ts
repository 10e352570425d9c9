// A waveform that runs down: its highest and lowest samples, left and right of the middle.

/** The highest sample of each part of a sound, 0 to 1. */
export type Peaks = readonly number[];

/**
 * The part of a sound's peaks that a cue plays, one for each so many px, with what is
 * silent after its end left at nothing.
 *
 * @param from where in the sound the cue begins, as a share of the sound.
 * @param to where it ends; past 1 the sound is over, or goes round again.
 */
export function peaksOfCue(
  peaks: Peaks,
  from: number,
  to: number,
  count: number,
  round: boolean,
): number[] {
  if (peaks.length === 0 || count <= 0) return [];
  const step = (to - from) / count;
  return Array.from({ length: count }, (_, nth) => {
    const share = from + nth * step;
    if (share >= 1 && !round) return 0;
    const first = Math.floor((share - Math.floor(share)) * peaks.length);
    const wide = Math.max(1, Math.round(step * peaks.length));
    let most = 0;
    for (let at = first; at < Math.min(first + wide, peaks.length); at += 1) {
      most = Math.max(most, peaks[at] ?? 0);
    }
    return most;
  });
}

/** The closed shape of a waveform about the middle of so much width. */
export function wavePath(peaks: readonly number[], width: number, step: number): string {
  if (peaks.length === 0) return '';
  const middle = width / 2;
  const x = (peak: number) => Math.max(0.6, Math.min(peak, 1) * (middle - 2));
  const right = peaks.map((peak, nth) => `${(middle + x(peak)).toFixed(1)} ${nth * step}`);
  const left = peaks.map((peak, nth) => `${(middle - x(peak)).toFixed(1)} ${nth * step}`);
  const end = `${middle} ${peaks.length * step}`;
  return `M${right.join('L')}L${end}L${left.reverse().join('L')}Z`;
}
