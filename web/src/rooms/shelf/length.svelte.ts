// Type a length, and read it in every unit.
import { problemOf, type Server, told } from '$lib/api/server';
import type { Problem, Reckoned } from '$lib/api/wire';

/** Between the last key and the question. Unit: milliseconds. */
const PAUSE = 120;

export class LengthField {
  text = $state('');
  answer = $state.raw<Reckoned | null>(null);
  problem = $state.raw<Problem | null>(null);
  private timer: ReturnType<typeof setTimeout> | null = null;
  private asked = 0;

  constructor(private readonly server: Server) {}

  /** What was typed, in a gauge at a speed. */
  typed(text: string, gauge: string, speed: string): void {
    this.text = text;
    if (this.timer) clearTimeout(this.timer);
    if (text.trim() === '') {
      this.answer = this.problem = null;
      return;
    }
    this.timer = setTimeout(() => void this.ask(gauge, speed), PAUSE);
  }

  private async ask(gauge: string, speed: string): Promise<void> {
    const mine = ++this.asked;
    const query = { quantity: this.text.trim(), gauge, speed };
    try {
      const answer = await told(this.server.GET('/api/reckon', { params: { query } }));
      // An answer that comes after a later question is of no use.
      if (mine === this.asked) [this.answer, this.problem] = [answer, null];
    } catch (why) {
      if (mine === this.asked) [this.answer, this.problem] = [null, problemOf(why)];
    }
  }
}
