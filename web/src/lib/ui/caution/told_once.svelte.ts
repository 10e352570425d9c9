// Which cautions have been told in this session: each is shown once, at its step.
import { SvelteSet } from 'svelte/reactivity';
import type { CautionKey } from './cautions';

type Kept = Pick<Storage, 'getItem' | 'setItem'>;

const NAME = 'onestrand.cautions-told';
/** Whoever had it before the eyes so long has seen it. Unit: milliseconds. */
const LOOKED = 8000;

export class ToldOnce {
  private readonly told = new SvelteSet<string>();

  constructor(private readonly kept: Kept | null) {
    const before = this.kept?.getItem(NAME) ?? '';
    for (const key of before.split(' ').filter(Boolean)) this.told.add(key);
  }

  has(key: CautionKey): boolean {
    return this.told.has(key);
  }

  /** It has been told; another window of this session need not. */
  tell(keys: readonly CautionKey[]): void {
    for (const key of keys) this.told.add(key);
    try {
      this.kept?.setItem(NAME, [...this.told].join(' '));
    } catch {
      // A browser that keeps nothing tells it once a page.
    }
  }

  /** It stood there from `since` until now: long enough counts as told. */
  leave(keys: readonly CautionKey[], since: number, now: number): void {
    if (now - since >= LOOKED) this.tell(keys);
  }
}

function session(): Kept | null {
  try {
    return window.sessionStorage;
  } catch {
    return null;
  }
}

export const toldOnce = new ToldOnce(session());
