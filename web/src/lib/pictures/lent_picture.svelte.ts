// A picture of the shelf, as state of the component that shows it.

import { untrack } from 'svelte';
import type { Came, Loan, Nearness, PictureShelf } from './picture_shelf';

/** Made while a component is set up; lent until the component goes. */
export class LentPicture<P> {
  /** Null while it is on its way. */
  came = $state.raw<Came<P> | null>(null);

  constructor(
    shelf: PictureShelf<P>,
    url: () => string | null,
    nearness: () => Nearness = () => 'seen',
  ) {
    let loan: Loan | null = null;
    $effect(() => {
      const from = url();
      this.came = null;
      if (from === null) return;
      const lent = shelf.ask(from, untrack(nearness), (came) => {
        this.came = came;
      });
      loan = lent;
      return () => lent.giveBack();
    });
    $effect(() => loan?.move(nearness()));
  }

  /** The picture itself, or null. */
  get picture(): P | null {
    return this.came?.kind === 'picture' ? this.came.picture : null;
  }
}
