// What a screen reader hears of changes that one would see. Two regions are on
// the page from the start; messages are added to them and taken away later.

import { getContext, setContext } from 'svelte';

/** Polite waits until the reader has ended its sentence; assertive breaks in. */
export type Manner = 'polite' | 'assertive';

/** A message on the page. */
export interface Message {
  readonly id: number;
  readonly words: string;
}

/** Time as the announcer needs it. */
export interface Waits {
  /** Calls back after so many ms; gives back how to call it off. */
  readonly later: (ms: number, act: () => void) => () => void;
}

/** Messages about one thing that follow each other faster than this are one. Unit: ms. */
export const SETTLES = 250;

/** How long a message stays on the page for the reader to find it. Unit: ms. */
export const STAYS = 4000;

const CLOCK: Waits = {
  later: (ms, act) => {
    const timer = setTimeout(act, ms);
    return () => clearTimeout(timer);
  },
};

/** Says things to a screen reader. */
export class Announcer {
  polite = $state.raw<readonly Message[]>([]);
  assertive = $state.raw<readonly Message[]>([]);

  readonly #clock: Waits;
  // Things spoken of a moment ago, and how to call off what waits about them.
  readonly #subjects = new Map<string, () => void>();
  #ids = 0;

  constructor(clock: Waits = CLOCK) {
    this.#clock = clock;
  }

  /**
   * Says words. Of messages `about` the same thing that come fast, as frames do
   * while a key is held, the first is said at once and then only the latest,
   * when it has settled.
   */
  say(words: string, about?: string, manner: Manner = 'polite'): void {
    if (words === '') return;
    if (about === undefined) this.#put(words, manner);
    else this.#sayAbout(about, words, manner);
  }

  /** Breaks in: a refusal, the program gone. */
  breakIn(words: string, about?: string): void {
    this.say(words, about, 'assertive');
  }

  /** Says nothing more about a thing: it is no longer seen. */
  forget(about: string): void {
    this.#subjects.get(about)?.();
    this.#subjects.delete(about);
  }

  #sayAbout(about: string, words: string, manner: Manner): void {
    const callOff = this.#subjects.get(about);
    callOff?.();
    if (!callOff) this.#put(words, manner);
    this.#settle(about, callOff ? () => this.#put(words, manner) : null);
  }

  /** After a quiet moment what waits is said, and the thing may be spoken of at once again. */
  #settle(about: string, sayIt: (() => void) | null): void {
    const callOff = this.#clock.later(SETTLES, () => {
      this.#subjects.delete(about);
      sayIt?.();
    });
    this.#subjects.set(about, callOff);
  }

  #put(words: string, manner: Manner): void {
    this.#ids += 1;
    const message = { id: this.#ids, words };
    this[manner] = [...this[manner], message];
    this.#clock.later(STAYS, () => {
      this[manner] = this[manner].filter((each) => each !== message);
    });
  }
}

const KEY = Symbol('announcer');

/** Hands the announcer down to all that is drawn below. */
export function keepAnnouncer(announcer: Announcer): Announcer {
  return setContext(KEY, announcer);
}

/** The announcer of the page. */
export function theAnnouncer(): Announcer {
  return getContext<Announcer>(KEY);
}
