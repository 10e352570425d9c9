import { describe, expect, it } from 'vitest';
import { DigitalFinish } from './digital_finish.svelte';

function finish(): DigitalFinish {
  const nothing = undefined as never;
  return new DigitalFinish(nothing, { all: [] } as never, { film: null, name: 'boat' } as never);
}

describe('a digital finish', () => {
  it('counts the frames of the file as the program does', () => {
    const made = finish();
    // ⌈2,724 · 25 / 18⌉: the figure of the command's own document.
    made.rate = '25';
    expect(made.fileFrames(2724, '18')).toBe(3784);
    made.rate = '30000/1001';
    expect(made.fileFrames(18, '18')).toBe(30);
    made.rate = '';
    expect(made.fileFrames(2724, '18')).toBe(2724);
  });

  it('says that a rate is too low, and reads no nonsense', () => {
    const made = finish();
    made.rate = '24';
    expect(made.fileFrames(100, '25')).toBeNull();
    expect(made.fileFrames(100, 'fast')).toBeNull();
  });

  it('leaves what is kept for good as it is', () => {
    const made = finish();
    expect(made.isMaster).toBe(false);
    made.purpose = 'keeping';
    expect(made.isMaster).toBe(true);
  });
});
