// How a transfer shows the film of a roll: the plates that count it, the sum
// behind each, and why the count may differ from the ruler.
import type { RollLog } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { parseSpeed, type Speed, speedWords } from '$lib/film/speed';
import type { SumLine } from '$lib/film/sums';
import { missingRuns } from './lengths';
import type { PlateOf } from './plates_of_roll';
import { countWords, framesWords } from './words_of_roll';

export type Transfer = NonNullable<NonNullable<RollLog['report']>['transfer']>;
export type Anomaly = NonNullable<RollLog['report']>['anomalies'][number];

/** Skips that are guessed from what moves: no number is left free for them. */
export function guessedSkips(log: RollLog): Anomaly[] {
  return (log.report?.anomalies ?? []).filter((one) => one.kind === 'skip' && one.frames_low === 0);
}

/** Film frames that the machine showed longer than their turn. */
export function doublings(log: RollLog): Anomaly[] {
  return (log.report?.anomalies ?? []).filter((one) => one.kind === 'doubled');
}

/** Frames of all files of a roll. */
export function fileFrames(log: RollLog): number {
  return (
    log.report?.transfer?.file_frames ?? log.roll.scans.reduce((sum, scan) => sum + scan.frames, 0)
  );
}

/** The rate of the files, where they agree on one. */
function fileRate(log: RollLog): Speed | null {
  const rates = new Set(log.roll.scans.map((scan) => scan.rate));
  const [rate] = [...rates];
  return rates.size === 1 && rate ? parseSpeed(rate) : null;
}

const nameOfFile = (path: string) => path.split(/[\\/]/).at(-1) ?? path;

function filePlate(log: RollLog): PlateOf {
  const sum: SumLine[] = log.roll.scans.map((scan) => {
    const rate = parseSpeed(scan.rate);
    const at = rate ? ` at ${speedWords(rate)} f/s` : '';
    return { sum: `${nameOfFile(scan.path)}${at}`, comes: framesWords(scan.frames) };
  });
  if (sum.length > 1) sum.push({ sum: 'together', comes: framesWords(fileFrames(log)) });
  return {
    label: 'frames of the file',
    parts: [{ count: grouped(fileFrames(log)) }, { words: 'file frames' }],
    sum,
  };
}

function repeatsPlate(log: RollLog, transfer: Transfer): PlateOf[] {
  if (transfer.repeats === 0) return [];
  const seen = log.roll.frames - log.roll.missing;
  return [
    {
      label: 'repeats in the file',
      parts: [
        { count: grouped(transfer.repeats) },
        { words: transfer.repeats === 1 ? 'repeat' : 'repeats' },
      ],
      sum: [
        {
          sum: `${grouped(transfer.file_frames)} file frames − ${grouped(seen)} film frames seen`,
          comes: grouped(transfer.file_frames - seen),
        },
      ],
    },
  ];
}

/** Whether each film frame stands in the file once. */
export function isOneToOne(transfer: Transfer): boolean {
  return transfer.blended === 0 && transfer.cadence.every((turns) => turns === 1);
}

function cadencePlate(log: RollLog, transfer: Transfer): PlateOf[] {
  if (isOneToOne(transfer)) return [];
  const speed = transfer.speed ? parseSpeed(transfer.speed) : null;
  const rate = fileRate(log);
  const sum: SumLine[] = [];
  if (transfer.blended === 0) {
    const turns = transfer.cadence.reduce((all, one) => all + one, 0);
    sum.push({
      sum: `${countWords(transfer.cadence.length, 'film frame')}: ${transfer.cadence.join(' + ')}`,
      comes: `${grouped(turns)} file frames`,
    });
    if (rate && speed) {
      sum.push({
        sum: `${speedWords(rate)} f/s × ${transfer.cadence.length} ÷ ${turns}`,
        comes: `${speedWords(speed)} f/s`,
      });
    }
  } else if (rate && speed) {
    sum.push({
      sum: `the steadiest speed that fits the blends of a file of ${speedWords(rate)} f/s`,
      comes: `${speedWords(speed)} f/s`,
    });
  }
  const parts: PlateOf['parts'] = speed
    ? [{ words: 'film ran at' }, { count: speedWords(speed) }, { words: 'f/s' }]
    : [{ words: 'cadence' }, { count: transfer.cadence.slice(0, 5).join(' ') }];
  return [{ label: 'cadence of the transfer', parts, ...(sum.length > 0 ? { sum } : {}) }];
}

/** Runs of film frames of one kind. */
export function stretchesOf(transfer: Transfer, kind: 'blended' | 'counted') {
  return transfer.stretches.filter((one) => one.kind === kind);
}

function standingPlates(log: RollLog, transfer: Transfer): PlateOf[] {
  const { clean, blended, counted } = transfer;
  if (blended === 0 && counted === 0) return [];
  const less = [
    [blended, 'blended'],
    [counted, 'counted'],
    [log.roll.missing, 'not seen'],
  ] as const;
  const plates: PlateOf[] = [
    {
      label: 'film frames seen clean',
      parts: [{ count: grouped(clean) }, { words: 'clean' }],
      sum: [
        {
          sum: [
            grouped(log.roll.frames),
            ...less.filter(([n]) => n > 0).map(([n, words]) => `${grouped(n)} ${words}`),
          ].join(' − '),
          comes: grouped(clean),
        },
      ],
    },
  ];
  const place = (kind: 'blended' | 'counted', count: number, of: string, why: string) => {
    const runs = stretchesOf(transfer, kind);
    const first = runs[0];
    plates.push({
      label: of,
      parts: [{ count: grouped(count) }, { words: kind }],
      sum: [
        ...(first
          ? [
              {
                sum: `in ${countWords(runs.length, 'place')}, the first at`,
                comes: grouped(first.in),
              },
            ]
          : []),
        { sum: why, comes: framesWords(count) },
      ],
    });
  };
  if (blended > 0) {
    place(
      'blended',
      blended,
      'film frames blended with a neighbour',
      'each file frame that shows them shows a neighbour too',
    );
  }
  if (counted > 0) {
    place(
      'counted',
      counted,
      'film frames counted, not seen',
      'nothing can be seen there; the cadence carries on',
    );
  }
  return plates;
}

function faultPlates(log: RollLog): PlateOf[] {
  const [twice, skips] = [doublings(log), guessedSkips(log)];
  const plates: PlateOf[] = [];
  if (twice.length > 0) {
    const turns = twice.reduce((sum, one) => sum + one.frames, 0);
    plates.push({
      label: 'doublings of the machine',
      parts: [{ count: grouped(turns) }, { words: 'doubled' }],
      sum: [
        ...listed(twice, (one) => ({
          sum: `${log.roll.roll} ${grouped(one.at)} stands too long in the file`,
          comes: `by ${framesWords(one.frames)}`,
        })),
        { sum: 'left out of the count', comes: framesWords(turns) },
      ],
    });
  }
  if (skips.length > 0) {
    const most = skips.reduce((sum, one) => sum + one.frames_high, 0);
    plates.push({
      label: 'skips of the machine, guessed',
      parts: [{ count: grouped(skips.length) }, { words: skips.length === 1 ? 'skip?' : 'skips?' }],
      sum: [
        ...listed(skips, (one) => ({
          sum: `before ${log.roll.roll} ${grouped(one.at)} the movement jumps`,
          comes: `none to ${one.frames_high}`,
        })),
        { sum: 'guessed, and no number left free', comes: `0 to ${grouped(most)}` },
      ],
    });
  }
  return plates;
}

/** Frames that keep their numbers and that no scan shows. */
function missingPlate(log: RollLog): PlateOf[] {
  const { missing } = log.roll;
  if (missing === 0) return [];
  const runs = missingRuns(log).slice(0, LISTED);
  return [
    {
      label: 'frames without a picture',
      parts: [{ count: grouped(missing) }, { words: 'counted, not seen' }],
      sum: [
        ...runs.map((run) => ({
          sum: `from ${log.roll.roll} ${grouped(run.first)} to ${grouped(run.thrown - 1)}`,
          comes: framesWords(run.thrown - run.first),
        })),
        { sum: 'no file shows them; they keep their numbers', comes: framesWords(missing) },
      ],
    },
  ];
}

/** So many places are listed one by one. */
const LISTED = 8;

function listed(all: readonly Anomaly[], line: (one: Anomaly) => SumLine): SumLine[] {
  const lines = all.slice(0, LISTED).map(line);
  const rest = all.length - lines.length;
  return rest > 0 ? [...lines, { sum: `and ${countWords(rest, 'other')}`, comes: '' }] : lines;
}

/** What the reading found of the transfer, as plates; none for a roll on paper. */
export function transferPlates(log: RollLog): PlateOf[] {
  const transfer = log.report?.transfer;
  if (log.roll.paper || log.roll.scans.length === 0) return [];
  if (!transfer) return [filePlate(log), ...missingPlate(log), ...faultPlates(log)];
  return [
    filePlate(log),
    ...repeatsPlate(log, transfer),
    ...cadencePlate(log, transfer),
    ...standingPlates(log, transfer),
    ...missingPlate(log),
    ...faultPlates(log),
  ];
}

/** How the file shows the film, in one sentence. */
export function transferSentence(log: RollLog): string {
  const transfer = log.report?.transfer;
  if (log.roll.paper) return 'Known on paper only, so nothing is proved.';
  if (!transfer) return '';
  if (transfer.blended > 0) {
    return 'The file blends neighbouring film frames; each is parted from them as far as the pictures allow.';
  }
  const twice = doublings(log).length > 0 ? ', but for those that stand doubled' : '';
  return isOneToOne(transfer)
    ? `Each frame of the file shows one film frame${twice}.`
    : 'The file shows film frames again and again; each is counted once.';
}

/** `2.4`: what would make a measure agree. */
function perCent(share: number): string {
  return (share * 100).toFixed(share < 0.01 ? 2 : 1);
}

/** The difference between what was found and what the ruler says, explained in sentences. */
export function differenceExplained(log: RollLog): string[] {
  const { frames, missing, expected } = log.roll;
  if (log.roll.paper || expected === null || expected === undefined) return [];
  const off = log.roll.difference ?? frames - expected;
  const said: string[] = [];
  if (off === 0) {
    if (missing > 0) said.push(`${framesWords(missing)} keep their numbers and have no picture.`);
    return said;
  }
  const skips = guessedSkips(log);
  const most = skips.reduce((sum, one) => sum + one.frames_high, 0);
  if (off < 0) {
    const short = -off;
    if (skips.length > 0) {
      const where = skips.slice(0, 4).map((one) => grouped(one.at));
      const places = where.join(', ') + (skips.length > where.length ? ' and elsewhere' : '');
      said.push(
        most >= short
          ? `The machine may have left out ${skips.length === 1 ? 'film' : 'frames'} before ${places}: up to ${framesWords(most)}, which can be all that is short.`
          : `The machine may have left out up to ${framesWords(most)}, before ${places}. That leaves ${framesWords(short - most)} without a reason.`,
      );
    } else {
      said.push('No place was found where the machine left film out.');
    }
    said.push(
      `Look whether the ruler took leader in, and whether the scan begins and ends with the film.`,
    );
  } else {
    const share = off / frames;
    said.push(
      log.shrinkage
        ? `More film was found than was measured, with ${log.shrinkage} % of shrinkage reckoned in.`
        : `Shrunk film measures short: shrinkage of ${perCent(share)} % would explain it. Measure a hundred frames.`,
    );
    if ((log.report?.transfer?.counted ?? 0) > 0) {
      said.push('Where nothing can be seen, frames were counted by the cadence.');
    }
  }
  return said;
}
