// How late the machine is: a click is played, found again in what the microphone heard, and
// the time between is what a recording made to the picture comes late by.

/** What was measured, or why it cannot be. */
export type Latency =
  | {
      readonly kind: 'found';
      readonly samples: number;
      readonly spread: number;
      readonly of: number;
    }
  | { readonly kind: 'not_heard'; readonly heard: number; readonly of: number }
  | { readonly kind: 'unsteady'; readonly spread: number; readonly of: number };

/** So many clicks must be heard, of those played, before a figure is given. */
export const ENOUGH = 3;

/** Figures farther apart are no measurement. Unit: ms. */
const STEADY_MS = 5;

/**
 * The click: a chirp from 1 to 6 kHz within 8 ms, faded at both ends. Its like does not come
 * up in room noise, and unlike a single sample it is heard through a small loudspeaker. It is
 * soft, 12 dB below full, for whoever still has headphones on.
 */
export function click(rate: number): Float32Array {
  const length = Math.round(0.008 * rate);
  const made = new Float32Array(length);
  for (let nth = 0; nth < length; nth += 1) {
    const t = nth / rate;
    const phase = 2 * Math.PI * (1000 * t + (5000 / 0.016) * t * t);
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * nth) / (length - 1));
    made[nth] = 0.25 * window * Math.sin(phase);
  }
  return made;
}

/** Where the click begins in what was heard, or null where nothing is like it. */
export function findClick(heard: Float32Array, sought: Float32Array): number | null {
  const energy = sought.reduce((sum, sample) => sum + sample * sample, 0);
  const places = heard.length - sought.length + 1;
  if (places < 1 || energy === 0) return null;
  let best = { at: 0, like: 0 };
  let here = 0;
  for (let nth = 0; nth < sought.length; nth += 1) here += (heard[nth] ?? 0) ** 2;
  for (let at = 0; at < places; at += 1) {
    let sum = 0;
    for (let nth = 0; nth < sought.length; nth += 1)
      sum += (heard[at + nth] ?? 0) * (sought[nth] ?? 0);
    // From −1 to 1 however loud: a loudspeaker wired the other way round counts too.
    const like = here > 1e-9 ? Math.abs(sum) / Math.sqrt(here * energy) : 0;
    if (like > best.like) best = { at, like };
    here += (heard[at + sought.length] ?? 0) ** 2 - (heard[at] ?? 0) ** 2;
  }
  return best.like >= LIKE ? best.at : null;
}

/** How like the click it must be, from 0 to 1. White noise of a second comes to about 0.25. */
const LIKE = 0.5;

/** The middle of several measurements, in samples; null stands for a click that was not heard. */
export function latencyOf(found: readonly (number | null)[], rate: number): Latency {
  const all = found.filter((one) => one !== null).sort((a, b) => a - b);
  const of = found.length;
  if (all.length < Math.min(ENOUGH, of) || all.length === 0) {
    return { kind: 'not_heard', heard: all.length, of };
  }
  const middle = all[Math.floor(all.length / 2)] ?? 0;
  // The one that is farthest from the middle may be a door that fell to.
  const away = all.map((one) => Math.abs(one - middle)).sort((a, b) => a - b);
  const spread = away[Math.floor((away.length - 1) * 0.75)] ?? 0;
  if ((1000 * spread) / rate > STEADY_MS) return { kind: 'unsteady', spread, of };
  return { kind: 'found', samples: middle, spread, of: all.length };
}

/** What was measured, in words, with the next step. */
export function latencyWords(latency: Latency, rate: number): string {
  const ms = (samples: number) => ((1000 * samples) / rate).toFixed(1);
  switch (latency.kind) {
    case 'found':
      return `This machine is ${ms(latency.samples)} ms late; what you record is moved back by that.`;
    case 'not_heard':
      return `The microphone heard ${latency.heard} of ${latency.of} clicks. Take the headphones off or hold one to the microphone, turn the sound up a little, and measure again.`;
    case 'unsteady':
      return `The clicks came back at times ${ms(latency.spread)} ms apart. Close what else is running on this machine, and measure again.`;
  }
}
