// What the hand does in the room: steps, runs, breaks, mends, fills, notes. Keys
// and buttons come here alike.
import { problemOf } from '$lib/api/server';
import type { Film, FilmChange, FilmNote, Kept, Problem } from '$lib/api/wire';
import { grouped } from '$lib/film/grouped';
import { BreakHand } from './break_hand.svelte';
import { joinSaid } from './joins_found';
import type { RollsRoom } from './rolls.svelte';
import type { RollsActs } from './rolls_keys';
import type { StepUnit } from './steps';
import { countWords, framesWords, stepSaid, takeSaid } from './words_of_roll';

/** The machine that runs the roll, as far as the hand touches it. */
export interface Machine {
  readonly view: { readonly machine: 'stopped' | 'threading' | 'running' };
  readonly projector: { runOrStop(): void; stop(): void };
}

/** What the hand works with. */
export interface HandParts {
  readonly room: RollsRoom;
  readonly desk: {
    readonly film: Film | null;
    change(change: FilmChange, seen: number): Promise<Kept>;
  };
  readonly machine: Machine;
  /** Says something to whoever listens. */
  readonly say: (words: string, about?: string) => void;
  /** Leads to the Screening room with a roll, at a frame of it. */
  readonly watch: (roll: string, frame: number) => void;
  /** Carries film over to the cut: `R1.402.546`, and the version. */
  readonly carry: (lay: string, cut: string | null) => void;
}

/** A note that is being written. */
export interface OpenNote {
  readonly roll: string;
  readonly frame: number;
  readonly note: FilmNote | null;
}

export class Hand implements RollsActs {
  /** Whether the card is being written on. */
  filling = $state(false);
  openedNote = $state.raw<OpenNote | null>(null);
  /** What was refused last. */
  problem = $state.raw<Problem | null>(null);

  /** The hand on the breaks. */
  readonly breaks: BreakHand;

  readonly #parts: HandParts;

  constructor(parts: HandParts) {
    this.#parts = parts;
    this.breaks = new BreakHand(parts);
  }

  /** The version that film is laid into: the newest. */
  get version(): string | null {
    return this.#parts.desk.film?.cuts.at(-1)?.cut ?? null;
  }

  step(unit: StepUnit, steps: number): void {
    this.#stand();
    this.#parts.room.step(unit, steps);
    this.#sayStep();
  }

  end(end: 'first' | 'last'): void {
    this.#stand();
    this.#parts.room.end(end);
    this.#sayStep();
  }

  neighbour(side: 'before' | 'after'): void {
    this.#stand();
    const { room } = this.#parts;
    if (room.look === 'breaks') {
      this.breaks.neighbour(side);
      return;
    }
    room.neighbour(side);
    if (room.here) this.#parts.say(takeSaid(room.roll ?? '', room.here, room.hung.length), 'frame');
  }

  otherRoll(side: 'before' | 'after'): void {
    const roll = this.#parts.room.otherRoll(side);
    if (roll !== null) this.choose(roll);
  }

  /** Takes a roll into the hand. */
  choose(roll: string): void {
    this.#stand();
    const { room, say } = this.#parts;
    room.choose(roll);
    const head = room.head;
    say(
      head ? `${roll}, ${framesWords(head.frames)}, ${countWords(head.takes, 'take')}` : roll,
      'roll',
    );
  }

  /** To a frame that was pressed. */
  goTo(frame: number): void {
    this.#stand();
    this.#parts.room.goTo(frame);
    this.#sayStep();
  }

  runOrStop(): void {
    const { room, machine, say } = this.#parts;
    if (!room.log?.roll.workprint || room.log.roll.paper) return;
    const ran = machine.view.machine !== 'stopped';
    room.look = 'near';
    machine.projector.runOrStop();
    if (ran) this.#sayStep();
    else say('Running.', 'frame');
  }

  breakHere(): void {
    this.#change(
      (roll, frame) => ({ film_change: 'break_at', roll, frame }),
      (roll, frame) => `A take begins at ${roll} ${grouped(frame)}.`,
    );
  }

  mendBreak(): void {
    if (this.#parts.room.look === 'breaks') {
      void this.breaks.takeBack();
      return;
    }
    this.#change(
      (roll, frame) => ({ film_change: 'mend_break', roll, frame }),
      (roll, frame) => `The break at ${roll} ${grouped(frame)} is mended.`,
    );
  }

  fill(): void {
    this.#stand();
    if (this.#parts.room.look === 'breaks') {
      void this.breaks.letStand();
      return;
    }
    if (this.#parts.room.here?.take) this.filling = true;
  }

  layIn(): void {
    const { room, carry } = this.#parts;
    const here = room.here;
    if (!here?.take || room.roll === null) return;
    this.#stand();
    carry(`${room.roll}.${here.first}.${here.thrown}`, this.version);
  }

  watch(): void {
    const { room, watch } = this.#parts;
    if (room.roll === null || !room.log?.roll.workprint || room.log.roll.paper) return;
    this.#stand();
    watch(room.roll, room.frame);
  }

  nextToLook(): void {
    this.#stand();
    void this.breaks.nextToLook().then((found) => {
      if (found) this.#parts.room.look = 'breaks';
    });
  }

  moveBreak(): void {
    this.#stand();
    void this.breaks.moveHere();
  }

  note(): void {
    this.#stand();
    const { room } = this.#parts;
    if (room.roll === null || !room.log) return;
    this.openedNote = { roll: room.roll, frame: room.frame, note: null };
  }

  /** Opens a note to be rewritten. */
  openNote(id: number): void {
    const note = this.#parts.desk.film?.notes.find((each) => each.id === id);
    if (note) this.openedNote = { roll: note.roll, frame: note.frame, note };
  }

  nearer(): void {
    this.#parts.room.look = 'near';
  }

  back(): boolean {
    if (this.#parts.room.look === 'whole') return false;
    this.#stand();
    this.#parts.room.look = 'whole';
    return true;
  }

  /** The machine stands: a hand on the film stops it. */
  #stand(): void {
    this.problem = null;
    if (this.#parts.machine.view.machine !== 'stopped') this.#parts.machine.projector.stop();
  }

  #sayStep(): void {
    const { room, say } = this.#parts;
    const { roll, frame, here, log } = room;
    if (roll !== null) say(`${stepSaid(roll, frame, here)}${joinSaid(log, frame)}`, 'frame');
  }

  #change(
    change: (roll: string, frame: number) => FilmChange,
    said: (roll: string, frame: number) => string,
  ): void {
    this.#stand();
    const { room, desk, say } = this.#parts;
    const { log, frame } = room;
    if (!log) return;
    const roll = log.roll.roll;
    desk.change(change(roll, frame), log.revision).then(
      () => say(said(roll, frame)),
      (why: unknown) => (this.problem = problemOf(why)),
    );
  }
}
