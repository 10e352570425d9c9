// The counts of the copy stand that one steers by, each with the sum under it.
import type { CameraSum } from '$lib/api/wire';
import type { SumLine } from '$lib/film/sums';
import { capitalised } from './title_sayings';
import type { StandField, StandLight } from './stand_reckoned';

interface PlateOfStand {
  readonly label: string;
  readonly parts: readonly ({ readonly count: string } | { readonly words: string })[];
  readonly sum: readonly SumLine[] | undefined;
}

/** Which sums lie under a plate, by the plate's label. */
const UNDER: Readonly<Record<string, readonly string[]>> = {
  distance: ['size on the film', 'lens to artwork', 'lens to film'],
  field: ['field'],
  shown: ['shown'],
  safe: ['shown', 'safe for lettering'],
  light: ['lens to film', 'light lost'],
  sharp: ['hyperfocal distance H', 'near limit', 'far limit'],
  'side edge': ['lamps', 'light'],
  corner: ['lamps', 'light'],
};

/** What a plate is called where its own word does not say enough. */
const CALLED: Readonly<Record<string, string>> = {
  distance: 'Lens to artwork',
  light: 'Open the lens by',
  'side edge': 'Light at the side',
  corner: 'Light in the corner',
};

function sumOf(sums: readonly CameraSum[], label: string): SumLine[] | undefined {
  const names = UNDER[label] ?? [];
  const found = sums.filter((sum) => names.includes(sum.what));
  if (found.length === 0) return undefined;
  return found.flatMap((sum) => [
    { sum: `${sum.what} = ${sum.formula}`, comes: '' },
    { sum: sum.figures, comes: sum.comes },
  ]);
}

type Opened = Pick<StandField | StandLight, 'plates' | 'sums'>;

/** Plates of what is reckoned; what they are called stands beside them. */
export function standPlates(opened: Opened): PlateOfStand[] {
  return opened.plates.map((plate) => ({
    label: CALLED[plate.label] ?? capitalised(plate.label),
    // What a plate says of itself in words is said by its label; a unit stays.
    parts: [{ count: plate.count }, ...unitOf(plate.words).map((words) => ({ words }))],
    sum: sumOf(opened.sums, plate.label),
  }));
}

function unitOf(words: string): string[] {
  const unit = /^(mm|stops?)\b/.exec(words)?.[1];
  return unit ? [unit] : [];
}
