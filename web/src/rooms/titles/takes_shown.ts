// The takes of the film with a small picture each, to take a frame from.
import type { RollLog } from '$lib/api/wire';
import type { TakeShown } from './FramePicker.svelte';

export function takesShown(
  logs: readonly RollLog[],
  small: (roll: string, frame: number) => string | undefined,
): TakeShown[] {
  return logs.flatMap(({ roll, takes }) =>
    takes.map((take) => {
      const frame = Math.floor((take.in + take.out) / 2);
      const slate = take.setup && take.take ? `${take.setup}-T${take.take}` : '';
      return {
        roll: roll.roll,
        slate,
        action: take.action ?? '',
        frame,
        picture: small(roll.roll, frame),
      };
    }),
  );
}
