// What stands between the Script room and the program.
import type {
  Imported,
  InCamera,
  LinedTake,
  OneMore,
  Plan,
  Script,
  ScriptChange,
} from './script_types';

/** What the room needs of the film whose script it is. */
export interface ScriptDesk {
  load(): Promise<Script>;
  /** The plan as it stands; up to some seconds. */
  plan(): Promise<Plan>;
  /** What one more take of a setup does; a plan of its own. */
  oneMore(setup: string): Promise<OneMore | null>;
  /** The film cut in the camera. */
  inCamera(): Promise<InCamera | null>;
  change(change: ScriptChange, revision: number): Promise<void>;
  /** A take gets its ring, or loses it. */
  circle(take: LinedTake): Promise<void>;
  /** A screenplay, a table of setups or a list of wild sounds. */
  bringIn(file: File): Promise<Imported>;
  /** Keeps a photograph in the film's folder; gives its name there. */
  keepPhotograph(file: File): Promise<string>;
}
