// What stands between the Dubbing room and the program.
import type { Dub, DubChange } from './dub_types';

export interface DubDesk {
  /** The sound as it stands in a version. */
  load(cut: string): Promise<Dub>;
  /** The revision that it led to. */
  change(change: DubChange, seen: number): Promise<number>;
}
