// The copy stand as it is reckoned: what lies in the field, how far, how sharp, how light.
import type { CameraSum } from '$lib/api/wire';
import type { TitleProblem } from './title_types';

/** Width and height. Unit: millimetres. */
export type Size = readonly [number, number];

export interface StandReckoned {
  /** The camera's gate. */
  readonly gate: Size;
  /** What it takes in of the artwork. */
  readonly field: Size;
  /** What of that the projector shows. */
  readonly shown: Size;
  /** What of that is safe from loss. */
  readonly safe: Size;
  readonly magnification: number;
  /** From the lens to the artwork. Unit: millimetres, as all lengths that follow. */
  readonly distance: number;
  /** From the lens to the film. */
  readonly image: number;
  readonly lens: number;
  /** What the distance costs. Unit: stops. */
  readonly stops: number;
  /** From where to where it is sharp; nothing where it is not reckoned. */
  readonly sharp: readonly [number, number] | null;
  readonly lamps: {
    /** From the lens axis. Unit: degrees. */
    readonly angle: number;
    readonly distance: number;
    /** Against the middle. Unit: stops. */
    readonly edge: number;
    readonly corner: number;
    /** Rows of the field from the top, each from left to right. Unit: stops. */
    readonly map: readonly (readonly number[])[];
    /** Within which angle a gloss throws lamps into the lens; in words. */
    readonly glare: string;
  };
  /** The least height of small letters for the last row. */
  readonly letters: { readonly screen: number; readonly art: number };
  readonly sums: readonly CameraSum[];
  readonly problems: readonly TitleProblem[];
}
