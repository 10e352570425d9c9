import { beforeEach, describe, expect, it } from 'vitest';
import { measuredFrom, MeasuredSpeed } from './measured_speed.svelte';
import { asName, LONGEST_NAME, WhoWrites } from './who_writes.svelte';

beforeEach(() => localStorage.clear());

describe('who writes', () => {
  it('is asked once and kept for the next time', () => {
    const first = new WhoWrites();
    expect([first.asked, first.name]).toEqual([false, '']);
    first.sign('  Ida \n Holm ');
    const next = new WhoWrites();
    expect([next.asked, next.name]).toEqual([true, 'Ida Holm']);
  });

  it('may be nobody, and then is not asked again', () => {
    new WhoWrites().sign('');
    const next = new WhoWrites();
    expect([next.asked, next.name]).toEqual([true, '']);
  });

  it('is no longer than the head of a column', () => {
    expect(asName('n'.repeat(99))).toHaveLength(LONGEST_NAME);
  });
});

describe('the measured speed', () => {
  it('is read with a point or a comma, and only where a projector runs so', () => {
    expect(measuredFrom('18.37')).toEqual({ num: 1837, den: 100 });
    expect(measuredFrom('18,37')).toEqual({ num: 1837, den: 100 });
    expect(['', '0', '0.5', '90', 'fast', '18.3.7'].map(measuredFrom)).toEqual(Array(6).fill(null));
  });

  it('is kept for its own film, and a wrong one is not', () => {
    const boat = new MeasuredSpeed('boat');
    boat.put('18,37');
    expect(new MeasuredSpeed('boat').text).toBe('18.37');
    expect(new MeasuredSpeed('other').text).toBeNull();
    boat.put('18.3.7');
    expect([boat.isWrong, boat.text]).toEqual([true, null]);
    expect(new MeasuredSpeed('boat').text).toBe('18.37');
    boat.put('');
    expect([boat.isWrong, new MeasuredSpeed('boat').text]).toEqual([false, null]);
  });
});
