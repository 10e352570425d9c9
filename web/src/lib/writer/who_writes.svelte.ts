// Who writes the notes at this machine: asked once, kept in the browser, changeable.

const KEPT = 'onestrand.who-writes';

/** No more letters than this fit at the head of a column. */
export const LONGEST_NAME = 40;

/** What is asked of the place where it is kept. */
type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** A name as it is kept: without space about it and without line ends. */
export function asName(typed: string): string {
  return typed.replace(/\s+/g, ' ').trim().slice(0, LONGEST_NAME).trim();
}

export class WhoWrites {
  /** Empty until somebody has said. */
  name = $state('');
  /** Whether it was asked here already; nobody needs to sign. */
  asked = $state(false);

  constructor(private readonly kept: Kept = localStorage) {
    const known = this.kept.getItem(KEPT);
    this.name = asName(known ?? '');
    this.asked = known !== null;
  }

  /** The name that a note which is kept now is signed with. Whoever keeps one
   * without a name has been asked, and signs none. */
  signed(): string {
    if (!this.asked) this.sign(this.name);
    return this.name;
  }

  /** One rewrites one's own words; another's are another's. */
  wrote(note: { readonly writer: string }): boolean {
    return note.writer === '' || note.writer === this.name;
  }

  /** Another name, or none: then notes are not signed. */
  sign(typed: string): void {
    this.name = asName(typed);
    this.asked = true;
    this.kept.setItem(KEPT, this.name);
  }
}
