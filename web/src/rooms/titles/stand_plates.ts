// The counts of the copy stand that one steers by, each with the sum under it.
import type { SumLine } from '$lib/film/sums';
import { stopsWords } from './stand_drawing';
import type { Size, StandReckoned } from './stand_reckoned';

interface PlateOfStand {
  readonly label: string;
  readonly parts: readonly ({ readonly count: string } | { readonly words: string })[];
  readonly sum: readonly SumLine[] | undefined;
}

const mm = (value: number) =>
  value.toLocaleString('en', { minimumFractionDigits: 0, maximumFractionDigits: 1 });
const size = ([wide, high]: Size) => `${mm(wide)} × ${mm(high)}`;

/** The sum whose name begins so, as a plate opens it. */
function sumOf(stand: StandReckoned, ...names: readonly string[]): SumLine[] | undefined {
  const found = stand.sums.filter((sum) => names.some((name) => sum.what.startsWith(name)));
  if (found.length === 0) return undefined;
  return found.flatMap((sum) => [
    { sum: `${sum.what} = ${sum.formula}`, comes: '' },
    { sum: sum.figures, comes: sum.comes },
  ]);
}

export function standPlates(stand: StandReckoned): PlateOfStand[] {
  const plates: PlateOfStand[] = [
    {
      label: 'Lens to artwork',
      parts: [{ count: mm(stand.distance) }, { words: 'mm' }],
      sum: sumOf(stand, 'magnification', 'distance'),
    },
    {
      label: 'Field of the camera',
      parts: [{ count: size(stand.field) }, { words: 'mm' }],
      sum: sumOf(stand, 'field'),
    },
    {
      label: 'Safe part',
      parts: [{ count: size(stand.safe) }, { words: 'mm' }],
      sum: sumOf(stand, 'shown', 'safe'),
    },
    {
      label: 'Open the lens by',
      parts: [{ count: stopsWords(stand.stops).replace('+ ', '') }, { words: 'stop' }],
      sum: sumOf(stand, 'light lost', 'exposure'),
    },
    {
      label: 'Light at the edge',
      parts: [{ count: stopsWords(stand.lamps.edge) }, { words: 'stop' }],
      sum: sumOf(stand, 'light at', 'edge'),
    },
  ];
  if (!stand.sharp) return plates;
  const [near, far] = stand.sharp;
  const sharp = {
    label: 'Sharp',
    parts: [{ count: `${mm(Math.round(near))}–${mm(Math.round(far))}` }, { words: 'mm' }],
    sum: sumOf(stand, 'sharp', 'near', 'far'),
  };
  return [...plates.slice(0, 3), sharp, ...plates.slice(3)];
}
