// What follows what in the room: the log is asked for, the cards see it, the
// plates count, and the address says where one is.
import { untrack } from 'svelte';
import type { FilmDesk } from '$lib/desk/film_desk.svelte';
import type { House } from '$lib/desk/house.svelte';
import type { Cards } from './cards.svelte';
import { strandCounters } from './plates_of_roll';
import type { RollsRoom } from './rolls.svelte';

/** Between a step and the address that says so; the browser allows only so many. Unit: ms. */
const ADDRESS_WAITS = 300;

/** To be called while the room is made. */
export function followRoom(room: RollsRoom, cards: Cards, house: House, desk: FilmDesk): void {
  $effect(() => {
    void [room.roll, room.head];
    void untrack(() => room.load());
  });

  $effect(() => {
    const log = room.log;
    if (log) untrack(() => cards.seeAgain(log));
  });

  $effect(() => {
    if (desk.film) house.counters = strandCounters(desk.film);
    return () => (house.counters = []);
  });

  $effect(() => {
    const place = room.place;
    const timer = setTimeout(() => {
      if (house.address.place.room === 'rolls') house.address.note(place);
    }, ADDRESS_WAITS);
    return () => clearTimeout(timer);
  });

  // The browser's way back, or a link into the room.
  $effect(() => {
    const { room: where, at } = house.address.place;
    untrack(() => {
      const now = room.place;
      const elsewhere = Object.entries(at).some(([name, value]) => (now[name] ?? value) !== value);
      if (where === 'rolls' && elsewhere) room.arrive(at);
    });
  });
}
