import { expect, it } from 'vitest';
import { aroundPlace, placeOf } from './proof_words';

const spans = [
  { at: 0, roll: 'R2', in: 590, out: 620, mirrored: false, upside_down: false },
  { at: 30, roll: 'R1', in: 100, out: 110, mirrored: false, upside_down: true },
];

it('says a place, or the stretch it lies in', () => {
  expect(placeOf({ at: 117, earliest: 117, latest: 117 })).toBe('At frame 117 of the scan');
  expect(placeOf({ at: 30, earliest: 16, latest: 57 })).toContain('Between frames 16 and 57');
});

it('knows the frames before and after a place', () => {
  const seen = aroundPlace({ spans }, 30);
  expect(seen.before).toEqual({ roll: 'R2', frame: 619 });
  // Upside down it runs from its end.
  expect(seen.after).toEqual({ roll: 'R1', frame: 109 });
  expect(aroundPlace({ spans }, 0).before).toBeNull();
  expect(aroundPlace({ spans }, 40).after).toBeNull();
});
