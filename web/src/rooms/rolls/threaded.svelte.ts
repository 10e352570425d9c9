// The chosen roll in the projector, and the two kept together: while it runs the
// room follows the film, while it stands the film follows the room.
import { untrack } from 'svelte';
import { speedFrom } from '$lib/film/speed';
import { PlayPlan } from '$lib/play/play_plan';
import type { Projection } from '$lib/play/projection.svelte';
import { countsText } from '$lib/play/projector_view.svelte';
import type { RollsRoom } from './rolls.svelte';

/** Threads the chosen roll; to be called while a component is made. */
export function threadRoll(
  room: RollsRoom,
  projection: Projection,
  say: (words: string) => void,
): void {
  const threaded = $derived(
    room.log && room.log.roll.workprint
      ? { roll: room.log.roll.roll, frames: room.log.roll.frames, speed: room.log.film_speed }
      : null,
  );
  // The log comes anew at every change; the roll in the machine is the same.
  const what = $derived(threaded ? Object.values(threaded).join('\n') : '');

  $effect(() => {
    void what;
    untrack(() => {
      if (!threaded) {
        projection.projector.load(new PlayPlan([]));
        return;
      }
      const { roll, frames, speed } = threaded;
      const plan = new PlayPlan([{ kind: 'shot', roll, first: 0, thrown: frames }]);
      projection.projector.load(plan, room.frame);
      projection.projector.setSpeed(speedFrom(speed));
    });
  });

  $effect(() => {
    const frame = room.frame;
    untrack(() => {
      if (projection.view.machine === 'stopped' && projection.view.at !== frame) {
        projection.projector.seek(frame);
      }
    });
  });

  // What became of a run is said when it is over.
  let ran = false;
  $effect(() => {
    const runs = projection.view.machine !== 'stopped';
    untrack(() => {
      const counts = projection.view.counts;
      if (ran && !runs && counts.shown > 0) say(`Stopped. ${countsText(counts)}.`);
    });
    ran = runs;
  });

  $effect(() => {
    const { machine, at } = projection.view;
    if (machine === 'running') untrack(() => room.goTo(at));
  });
}
