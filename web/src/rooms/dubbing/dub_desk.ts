// What stands between the Dubbing room and the program.
import type { Heard } from '$lib/sound/sound_player';
import type { CutChange } from '$lib/api/wire';
import type { Dub, DubChange } from './dub_types';

/** What is to be heard of a version. */
export interface HeardAsked {
  readonly dub: Dub;
  /** A column that is heard alone. */
  readonly solo: number | null;
  /** As the stripe of the film will let it through. */
  readonly through: boolean;
  readonly first: number;
  readonly count: number;
}

export interface DubDesk {
  /** The sound as it stands in a version. */
  load(cut: string): Promise<Dub>;
  /** The revision that it led to. */
  change(change: DubChange, seen: number): Promise<number>;
  /** The same for a change of the version itself. */
  changeCut(cut: string, change: CutChange, seen: number): Promise<number>;
  /** The mix of some frames, as it is written to the file. */
  heard(asked: HeardAsked, signal: AbortSignal): Promise<Heard>;
}
