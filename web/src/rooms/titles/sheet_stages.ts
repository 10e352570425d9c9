// The exposure sheet as a form that runs down: lines of frames that are exposed alike, those
// of one fade taken together.
import type { SheetLine } from './title_types';

/** Frames with the same things under the camera, the lens full open, fading or capped. */
export interface SheetStage {
  readonly pass: number;
  /** The first frame, from 0, and the first after. */
  readonly from: number;
  readonly to: number;
  readonly background: string;
  readonly lettered: boolean;
  readonly light: 'full' | 'fades' | 'none';
  /** What lies under the camera. */
  readonly words: string;
  /** What the iris or the shutter does, and how it is exposed. */
  readonly how: string;
  /** What the hand does before it. */
  readonly note: string;
}

const CELS: Readonly<Record<string, string>> = {
  blank: 'blank cel',
  lettered: 'lettered cel',
  second: 'second cel',
};
const GROUNDS: Readonly<Record<string, string>> = {
  ground: 'ground',
  card: 'lettered card',
  black: 'black',
  next: 'the next card',
};

const lightOf = (line: SheetLine): SheetStage['light'] =>
  line.stops == null ? 'none' : Math.abs(line.stops) > 0.005 ? 'fades' : 'full';

function alike(one: SheetLine, other: SheetLine): boolean {
  return (
    one.pass === other.pass &&
    one.to === other.from &&
    one.background === other.background &&
    one.cel_1 === other.cel_1 &&
    one.cel_2 === other.cel_2 &&
    lightOf(one) === lightOf(other)
  );
}

const stops = (value: number) => value.toFixed(1).replace('-', '− ');
const moves = ([east = 0, south = 0]: readonly number[]) => east !== 0 || south !== 0;

function stageOf(lines: readonly [SheetLine, ...SheetLine[]]): SheetStage {
  const [first] = lines;
  const last = lines.at(-1) ?? first;
  const cels = [first.cel_1, first.cel_2].flatMap((cel) => CELS[cel] ?? []);
  const light = lightOf(first);
  const words =
    light === 'none' ? 'lens capped' : [GROUNDS[first.background] ?? '', ...cels].join(', ');
  const how = [
    light === 'fades' ? `${stops(first.stops ?? 0)} to ${stops(last.stops ?? 0)} stops` : '',
    light === 'none' ? 'run on' : first.exposing === 'running' ? 'camera runs' : 'frame by frame',
    moves(first.letters_step_mm)
      ? `letters move ${Math.hypot(...first.letters_step_mm).toFixed(2)} mm a frame`
      : '',
    moves(first.art_step_mm) ? 'the artwork moves' : '',
  ];
  return {
    pass: first.pass,
    from: first.from,
    to: last.to,
    background: first.background,
    lettered: [first.cel_1, first.cel_2].includes('lettered') || first.background === 'card',
    light,
    words,
    how: how.filter((one) => one !== '').join('; '),
    // The rest of the note is what stands in the row already.
    note: first.note.split('; ').find((one) => one.includes('wind back')) ?? '',
  };
}

/** The stages of a sheet, pass by pass. */
export function sheetStages(lines: readonly SheetLine[]): SheetStage[] {
  const groups: [SheetLine, ...SheetLine[]][] = [];
  for (const line of lines) {
    const group = groups.at(-1);
    const last = group?.at(-1);
    if (group && last && alike(last, line)) group.push(line);
    else groups.push([line]);
  }
  return groups.map(stageOf);
}
