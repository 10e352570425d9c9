// @vitest-environment node
import { expect, it } from 'vitest';
import { fillPlanned } from './planned_setups.svelte';
import { takeOf } from './pretend_log';
import { TakeForm } from './take_form.svelte';

const PLANNED = { size: 'close', camera_move: '', direction: '', action: 'the rope' };

it('writes what was planned where nothing stands, and over nothing', () => {
  const card = new TakeForm({ roll: 'R1', first: 0 }, takeOf(0, 10), 1);
  card.write('size', 'wide');
  fillPlanned(card, PLANNED);
  expect([card.typed.size, card.typed.action, card.typed.camera_move]).toEqual([
    'wide',
    'the rope',
    '',
  ]);
  fillPlanned(card, null);
  expect(card.typed.action).toBe('the rope');
});
