import { flushSync } from 'svelte';
import { expect, it } from 'vitest';
import { Keys } from './keys.svelte';

it('laid in an effect, bindings follow what they speak of, and the effect runs once', () => {
  const keys = new Keys();
  let chosen = $state('3-T2');
  let ran = 0;
  const end = $effect.root(() => {
    $effect(() => {
      ran += 1;
      return keys.lay({
        kind: 'room',
        heading: 'Rolls',
        bindings: () => [{ keys: ['Enter'], words: `circle ${chosen}`, act: () => undefined }],
      });
    });
  });
  flushSync();
  expect(keys.line).toEqual([{ keys: ['Enter'], words: 'circle 3-T2' }]);
  chosen = '3-T1';
  flushSync();
  expect(keys.line).toEqual([{ keys: ['Enter'], words: 'circle 3-T1' }]);
  expect(ran).toBe(1);
  end();
  flushSync();
  expect(keys.line).toEqual([]);
});
