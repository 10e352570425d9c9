import { render } from '@testing-library/svelte';
import { expect, it } from 'vitest';
import Peg from './Peg.svelte';

it('is named by its pin, and mute without one', () => {
  expect(render(Peg, { pin: 8 }).container.textContent?.trim()).toBe('pin 8');
  expect(render(Peg).container.textContent?.trim()).toBe('');
});
