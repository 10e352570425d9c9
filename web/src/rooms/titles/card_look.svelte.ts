// How the card that is being written looks: measured and drawn by the program while one writes.
import { SvelteMap } from 'svelte/reactivity';
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { Card, CardDesign, TitleWords } from './title_types';
import type { TitlesDesk } from './titles_desk';

/** A hand that writes on is not asked after each letter. Unit: milliseconds. */
export const RESTS = 180;
/** The small pictures of the designs come when the hand lies still. Unit: milliseconds. */
const STILL = 600;
/** Width of the picture and of a small one. Unit: px. */
export const WIDE = 1000;
const SMALL = 240;

export class CardLook {
  card = $state.raw<Card | null>(null);
  /** The address of the picture. */
  picture = $state<string | null>(null);
  /** Why it cannot be set. */
  problem = $state.raw<Problem | null>(null);
  /** Another look is on its way. */
  asking = $state(false);
  /** The user's words in each design, by the design's word. */
  readonly small = new SvelteMap<string, string>();

  private resting: ReturnType<typeof setTimeout> | null = null;
  private waiting: ReturnType<typeof setTimeout> | null = null;
  private going: AbortController | null = null;
  private drawing: AbortController | null = null;
  private of = '';
  private smallOf = '';

  constructor(private readonly desk: TitlesDesk) {}

  /** Looks at a title, when the hand rests; at once where another is looked at. */
  at(title: TitleWords | null, how: 'at once' | 'when it rests' = 'when it rests'): void {
    if (this.resting) clearTimeout(this.resting);
    this.going?.abort();
    if (!title) return this.putAway();
    this.asking = true;
    if (how === 'at once') void this.ask(title);
    else this.resting = setTimeout(() => void this.ask(title), RESTS);
  }

  /** The stand or the film is another: everything is looked at anew. */
  forget(): void {
    this.of = '';
    this.smallOf = '';
  }

  private putAway(): void {
    this.card = null;
    this.problem = null;
    this.asking = false;
    this.show(null);
  }

  private async ask(title: TitleWords): Promise<void> {
    const of = lookOf(title);
    const going = (this.going = new AbortController());
    const { signal } = going;
    try {
      const [card, picture] = await Promise.all([
        this.desk.card(title, signal),
        of === this.of ? this.picture : this.desk.drawn(title, WIDE, null, signal),
      ]);
      if (signal.aborted) return;
      this.card = card;
      this.problem = null;
      this.of = of;
      this.show(picture);
    } catch (why) {
      if (signal.aborted) return;
      this.problem = problemOf(why);
      this.card = null;
      this.of = '';
      this.show(null);
    }
    this.asking = false;
  }

  private show(picture: string | null): void {
    if (picture === this.picture) return;
    if (this.picture) this.desk.letGo(this.picture);
    this.picture = picture;
  }

  /** The same words in every design, one after the other, when the hand lies still. */
  inEach(title: TitleWords, designs: readonly CardDesign[]): void {
    const of = lookOf({ ...title, lettering: { ...title.lettering, design: '' } });
    if (of === this.smallOf) return;
    if (this.waiting) clearTimeout(this.waiting);
    this.drawing?.abort();
    const drawing = (this.drawing = new AbortController());
    const wait = this.smallOf === '' ? 0 : STILL;
    this.waiting = setTimeout(() => {
      void this.drawEach(title, designs, drawing.signal).then((all) => {
        if (all) this.smallOf = of;
      });
    }, wait);
  }

  private async drawEach(
    title: TitleWords,
    designs: readonly CardDesign[],
    signal: AbortSignal,
  ): Promise<boolean> {
    for (const { word } of designs) {
      // The user's own typeface would make them all alike.
      const lettering = { ...title.lettering, design: word, face: '', letter_height: null };
      const drawn = await this.desk
        .drawn({ ...title, lettering }, SMALL, null, signal)
        .catch(() => null);
      if (signal.aborted) return false;
      const before = this.small.get(word);
      if (before) this.desk.letGo(before);
      if (drawn) this.small.set(word, drawn);
      else this.small.delete(word);
    }
    return true;
  }

  /** The room is left. */
  leave(): void {
    for (const timer of [this.resting, this.waiting]) if (timer) clearTimeout(timer);
    this.going?.abort();
    this.drawing?.abort();
    for (const address of this.small.values()) this.desk.letGo(address);
    this.small.clear();
    this.putAway();
  }
}

/** What the picture is drawn from, with all of its lettering. */
function lookOf(title: TitleWords): string {
  return JSON.stringify([title.words, title.lettering, title.ground, title.shooting.crawl]);
}
