// What can be done from the cutting sheet.
import type { HeldPieces } from './held_pieces.svelte';

export interface SheetActs {
  readonly held: HeldPieces;
  /** Begins a version, empty or as another stands; true when it is there. */
  begin(cut: string, from: string | null): Promise<boolean>;
  /** Begins a version with every circled take; true when it is there. */
  assemble(cut: string): Promise<boolean>;
  /** Gives a version another name or another note; true when it is kept. */
  describe(cut: string, name: string, note: string): Promise<boolean>;
  throwAway(cut: string): Promise<void>;
  lift(): Promise<void>;
  move(by: 1 | -1): Promise<void>;
  drop(row: number, line: number): Promise<void>;
  joinBy(join: string | null): Promise<void>;
  /** Makes two pieces of one; the second begins at this frame. */
  divide(at: number, frame: number): Promise<boolean>;
}
