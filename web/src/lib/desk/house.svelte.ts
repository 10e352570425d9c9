// What every part of the page shares, handed down by context.
import { getContext, setContext } from 'svelte';
import { connect, type Server, told } from '$lib/api/server';
import type { ShelfDocument } from '$lib/api/wire';
import type { Counter } from '$lib/desk/counters';
import { Address } from './address.svelte';
import { Bench } from './bench_light.svelte';
import { Connection } from './connection.svelte';
import { FilmDesk } from './film_desk.svelte';
import { Jobs } from './jobs.svelte';

export class House {
  readonly server: Server;
  readonly connection = new Connection();
  readonly jobs: Jobs;
  readonly address = new Address();
  readonly bench = new Bench();

  /** The shelf as it was looked at last. */
  shelf = $state.raw<ShelfDocument | null>(null);
  /** The film that lies open, if one does. */
  desk = $state.raw<FilmDesk | null>(null);
  /** The plates in the head of the page, which the room sets. */
  counters = $state.raw<readonly Counter[]>([]);
  /** Whether the printed sheets of the version lie over the bench. */
  sheetsOpen = $state(false);
  /** Files that were dropped before there was a film; Rolls takes them up. */
  dropped = $state.raw<readonly File[]>([]);

  constructor(server: Server = connect()) {
    this.server = server;
    this.jobs = new Jobs(server);
    this.connection.hear((event) => {
      this.jobs.hear(event);
      if (event.event === 'shelf') void this.lookAtShelf().catch(() => undefined);
    });
    this.connection.onReturn(() => {
      void this.jobs.load().catch(() => undefined);
      void this.lookAtShelf().catch(() => undefined);
    });
  }

  async lookAtShelf(): Promise<ShelfDocument> {
    this.shelf = await told(this.server.GET('/api/shelf'));
    return this.shelf;
  }

  /** Lays a film on the bench, or clears it. */
  async lay(film: string | null): Promise<void> {
    if (this.desk?.name === film) return;
    this.desk?.leave();
    this.desk = null;
    this.counters = [];
    if (film === null) return;
    const desk = new FilmDesk(film, this.server, this.connection);
    try {
      await desk.load();
      this.desk = desk;
    } catch (why) {
      desk.leave();
      throw why;
    }
  }
}

const KEY = Symbol('house');

export function keepHouse(house: House): House {
  return setContext(KEY, house);
}

export function theHouse(): House {
  return getContext<House>(KEY);
}

/** The film on the bench, for whatever is drawn only when one lies there. */
export function theDesk(): FilmDesk {
  const desk = theHouse().desk;
  if (!desk) throw new Error('a room was opened without a film');
  return desk;
}
