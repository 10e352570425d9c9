import { render, screen } from '@testing-library/svelte';
import { describe, expect, it } from 'vitest';
import LedgerOfRoll from './LedgerOfRoll.svelte';

const line = (number: number, kind: string, from_bench: boolean) => ({
  number,
  kind,
  on: '2026-03-03',
  through: '',
  times: 2,
  by: '',
  note: from_bench ? 'from the bench log' : '',
  from_bench,
});

describe('the ledger of a roll', () => {
  it('offers to strike off what was written by hand, and not what the bench has written', () => {
    const struck: number[] = [];
    const roll = {
      roll: 'R1',
      ledger: [line(4, 'cleaning', false), line(0, 'cut', true), line(0, 'wound', true)],
    };
    render(LedgerOfRoll, { roll, onstrike: (number: number) => struck.push(number) });
    const buttons = screen.getAllByRole('button');
    expect(buttons.map((one) => one.textContent.includes('cleaned, 2 times'))).toEqual([true]);
    buttons[0]?.click();
    expect(struck).toEqual([4]);
    expect(screen.getAllByText('corrected in the Bench room')).toHaveLength(2);
    expect(screen.getByText(/over the rewinds, 2 times/)).toBeTruthy();
  });
});
