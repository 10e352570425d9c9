// What stands between the cutting room and the film on the bench.
import type {
  Cut,
  CutChange,
  Film,
  FilmChange,
  Kept,
  RollLog,
  Ways,
  WaysRequest,
} from '$lib/api/wire';
import type { WithIt } from '$lib/desk/change_queue';
import type { Trial } from './trial';

/** What the room needs of the film on the bench. */
export interface CutDesk {
  readonly film: Film | null;
  readonly cuts: ReadonlyMap<string, Cut>;
  readonly rolls: ReadonlyMap<string, RollLog>;
  /** When a change of this window was kept last. */
  readonly keptAt: number;
  loadCut(cut: string): Promise<Cut>;
  change(change: FilmChange, seen: number, withIt?: WithIt): Promise<Kept>;
  tryCut(cut: string, change: CutChange, signal?: AbortSignal): Promise<Cut>;
  waysOut(cut: string, body: WaysRequest, signal: AbortSignal): Promise<Ways>;
  undo(withIt?: WithIt): Promise<Kept>;
  redo(withIt?: WithIt): Promise<Kept>;
}

/** The version was changed while something was on trial here. */
export interface Overtaken {
  /** Whether it was this window that changed it, by a step back or forth. */
  readonly own: boolean;
  readonly was: Cut;
  readonly trial: Trial;
}
