// The first cut of "The Ten-Past Boat" as story 6 has it, for the tests of this room.
import type { Cut, Piece } from '$lib/api/wire';

// slate, roll, in, out
const V1: readonly (readonly [string, string, number, number])[] = [
  ['M-T1', 'R3', 3075, 3255],
  ['1-T2', 'R1', 402, 546],
  ['2-T2', 'R1', 1068, 1176],
  ['3-T2', 'R1', 2623, 2749],
  ['2A-T2', 'R1', 1590, 1662],
  ['3-T2', 'R1', 2813, 2939],
  ['3B-T2', 'R2', 547, 607],
  ['3-T2', 'R1', 2996, 3122],
  ['2B-T1', 'R1', 1822, 1867],
  ['4-T2', 'R2', 1280, 1496],
  ['4A-T2', 'R2', 2075, 2147],
  ['4-T2', 'R2', 1532, 1640],
  ['4B-T2', 'R2', 2432, 2486],
  ['5-T1', 'R2', 2621, 2765],
  ['5A-T2', 'R2', 3170, 3242],
  ['5-T1', 'R2', 2801, 2909],
  ['5B-T2', 'R3', 57, 219],
  ['6-T2', 'R3', 930, 1110],
  ['6B-T2', 'R3', 1830, 1884],
  ['6A-T1', 'R3', 1503, 1575],
  ['6-T2', 'R3', 1218, 1362],
  ['7-T2', 'R3', 2505, 2775],
  ['E-T1', 'R3', 3279, 3360],
];

/** What joins cost on Super 8, as the server's table says. */
export const JOINS: Cut['joins'] = [
  { join: 'tape', out_tail: 0, in_head: 0, scar_out: 2, scar_in: 2, shortest: 6 },
  { join: 'cement', out_tail: 1, in_head: 0, scar_out: 1, scar_in: 0, shortest: 8 },
  { join: 'weld', out_tail: 1, in_head: 1, scar_out: 1, scar_in: 1, shortest: 8 },
];

export function boatV1(): Piece[] {
  let starts = 0;
  return V1.map(([slate, roll, first, thrown]) => {
    const starts_at = starts;
    starts += thrown - first;
    return {
      kind: 'shot',
      slate,
      roll,
      in: first,
      out: thrown,
      starts_at,
      action: '',
      runs_on: false,
      note: '',
    };
  });
}
