// The copy stand as the program reckons it, under short names.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type StandReckoned = Schemas['TitleStandDocument'];
export type StandField = Schemas['TitleFieldDocument'];
export type StandLight = Schemas['TitleLightDocument'];

/** A number as it is typed, with a comma too; null where it is none. */
export function figureTyped(typed: string): number | null {
  const plain = typed.trim().replace(',', '.');
  return /^\d*\.?\d+$|^\d+\.$/.test(plain) ? Number(plain) : null;
}
