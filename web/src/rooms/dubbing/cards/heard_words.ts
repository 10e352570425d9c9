// What was heard, in words a film maker uses.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

const decimals = (value: number, digits: number) => value.toFixed(digits).replace('-', '−');

export function seamSaid(seam: Schemas['SeamDocument']): string {
  if (!seam.heard) return 'nobody should hear it come round';
  return seam.stands_out_db > 7
    ? `its loudest moment stands out by ${decimals(seam.stands_out_db, 0)} dB and comes again each time`
    : `the seam changes ${decimals(seam.times_usual, 1)} times as much as the rest: it is heard`;
}

export function speedSaid(speed: Schemas['SpeedDocument']): string {
  const off = Math.abs(speed.play - 1) * 100;
  const way = speed.play >= 1 ? 'slow' : 'fast';
  const heard = `${decimals(speed.heard_hertz, 2)} Hz is heard where ${String(speed.true_hertz)} Hz is true`;
  return off < 0.005
    ? `${heard}: the speed is right.`
    : `${heard}: it runs ${decimals(off, 2)} % ${way}. Play it × ${decimals(speed.play, 4)}.`;
}

export function fitSaid(fit: Schemas['StrokeFitDocument'], half: number): string {
  const which = fit.strokes.join(', ');
  if (fit.times_louder !== null && fit.times_louder !== undefined) {
    return `Stroke ${which}: ${decimals(fit.times_louder, 0)} times louder after it than before.`;
  }
  const holds = fit.holds ? 'they fit' : 'farther than half a frame';
  return `Strokes ${which}: at worst ${decimals(fit.worst_ms, 1)} ms off, half a frame is ${decimals(half, 1)} ms: ${holds}.`;
}

export function beatsSaid(beats: Schemas['BeatsDocument']): string {
  return `${decimals(beats.played_bpm, 2)} beats a minute as it is played, ${String(beats.bars)} whole bars of ${String(beats.beats.in_a_bar)}.`;
}
