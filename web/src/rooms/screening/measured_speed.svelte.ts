// The running speed that was measured on one's own machine, kept in this browser
// for the film.
import { parseSpeed, type Speed } from '$lib/film/speed';

type Kept = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** Slower or faster runs no projector. Unit: frames a second. */
const LEAST = 1;
const MOST = 60;

/** A measured speed as it is typed, `18.37` or `18,37`; null where it is none. */
export function measuredFrom(typed: string): Speed | null {
  const speed = parseSpeed(typed.replace(',', '.'));
  if (!speed) return null;
  const each = speed.num / speed.den;
  return each >= LEAST && each <= MOST ? speed : null;
}

export class MeasuredSpeed {
  /** As it was typed; empty until somebody has measured. */
  typed = $state('');
  private readonly key: string;

  constructor(
    film: string,
    private readonly kept: Kept = localStorage,
  ) {
    this.key = `onestrand.measured-speed.${film}`;
    this.typed = this.kept.getItem(this.key) ?? '';
  }

  /** The speed in the form that every part of the page reads; null while it is none. */
  get text(): string | null {
    return measuredFrom(this.typed) ? this.typed.trim().replace(',', '.') : null;
  }

  /** Whether something is typed that is no speed. */
  get isWrong(): boolean {
    return this.typed.trim() !== '' && this.text === null;
  }

  /** What was typed is kept; an empty field says that nobody has measured. */
  put(typed: string): void {
    this.typed = typed;
    if (this.text) this.kept.setItem(this.key, this.text);
    else if (typed.trim() === '') this.kept.removeItem(this.key);
  }
}
