// Which version goes on the bench, and how it is worked.
import type { BenchVersion, BenchWrite } from './bench_types';

export const WINDINGS = ['heads', 'tails', 'to_and_fro'] as const;
export type Winding = (typeof WINDINGS)[number];

export const WINDING_CHOICE: Record<Winding, string> = {
  heads: 'from the head only',
  tails: 'also from the tail',
  to_and_fro: 'to and fro',
};

export const WINDING_MEANS: Record<Winding, string> = {
  heads: 'Every roll is wound once, from head to tail: the least handling.',
  tails:
    'A roll that lies tails out may be worked from its tail: fewer pins, a little more winding.',
  to_and_fro: 'Fewest pins of all, but the original is wound more than once.',
};

export class BeginForm {
  chosen = $state('');
  pins = $state(12);
  winding = $state<Winding>('heads');
  versions = $state.raw<readonly BenchVersion[]>([]);

  /** The version on the reel, of whose film another is made. */
  made = $state<string | null>(null);

  /** The version that would go on: the one chosen, else the first that can. */
  get version(): BenchVersion | null {
    const able = this.versions.filter((one) => !one.why_not && one.name !== this.made);
    return able.find((one) => one.name === this.chosen) ?? able[0] ?? null;
  }

  get write(): BenchWrite | null {
    const { version, pins, winding } = this;
    if (!version) return null;
    return {
      bench: 'begin',
      cut: version.name,
      pins,
      // The made film is run once, from its head.
      tails: !this.made && winding !== 'heads',
      to_and_fro: !this.made && winding === 'to_and_fro',
    };
  }
}
