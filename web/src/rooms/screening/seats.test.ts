import { beforeEach, describe, expect, it } from 'vitest';
import { measuredFrom, MeasuredSpeed } from './measured_speed.svelte';

beforeEach(() => localStorage.clear());

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
