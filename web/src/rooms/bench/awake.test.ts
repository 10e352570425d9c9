import { describe, expect, it } from 'vitest';
import { Awake } from './awake.svelte';

describe('the screen of the tablet', () => {
  it('is kept awake where the browser can, and let go', async () => {
    let released = 0;
    const awake = new Awake({
      request: () => Promise.resolve({ release: () => Promise.resolve(void (released += 1)) }),
    });
    expect(awake.held).toBeNull();
    await awake.hold();
    expect(awake.held).toBe(true);
    await awake.letGo();
    expect(released).toBe(1);
  });

  it('says so where the browser cannot, or will not', async () => {
    const cannot = new Awake(null);
    await cannot.hold();
    expect(cannot.held).toBe(false);
    const willNot = new Awake({ request: () => Promise.reject(new Error('battery')) });
    await willNot.hold();
    expect(willNot.held).toBe(false);
  });
});
