import { describe, expect, it } from 'vitest';
import { pathOf, placeOf, type Place } from './address.svelte';

const of = (path: string) => placeOf(new URL(path, 'http://127.0.0.1:7418'));

describe('where one is', () => {
  it('reads and writes the same', () => {
    const place: Place = {
      film: 'the-ten-past-boat',
      room: 'cutting',
      at: { cut: 'v 1', join: '7' },
    };
    expect(of(pathOf(place))).toEqual(place);
  });

  it('anything else is the shelf, an unknown room is Rolls', () => {
    expect(of('/').film).toBeNull();
    expect(of('/nowhere/at/all').film).toBeNull();
    expect(of('/film/a/attic').room).toBe('rolls');
  });
});
