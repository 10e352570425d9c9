// A cut on the action as it is sought: which two takes, how they lie beside each
// other, the three places to cut and the way back. The server finds; this asks.
import { problemOf } from '$lib/api/server';
import type {
  Film,
  FilmChange,
  Matched,
  MatchPoint,
  MatchRequest,
  Piece,
  Problem,
  RollLog,
  TakePlace,
  Twins,
} from '$lib/api/wire';
import { compareRolls } from '$lib/film/frame_name';
import { isShot, type Shot } from '../pieces';
import { slateOfTake } from '../takes_to_lay_in';
import {
  type ActionCut,
  type Crossing,
  type Made,
  nearJoin,
  sameTake,
  takeOfPiece,
  type TakeOnRoll,
} from './action_cut';
import { entryAt } from './action_words';

/** What is needed of the film on the bench. */
export interface ActionDesk {
  readonly film: Film | null;
  readonly rolls: ReadonlyMap<string, RollLog>;
  matchTakes(request: MatchRequest): Promise<Matched>;
  twins(): Promise<Twins>;
}

/** What is needed of the room. */
export interface ActionRoom {
  readonly kept: { readonly cut: string; readonly pieces: readonly Piece[] } | null;
  makeOfFilm(change: FilmChange): Promise<boolean>;
}

/** One crossing from take to take: what was found, and what is chosen of it. */
export class Sought {
  found = $state.raw<Matched | null>(null);
  asking = $state(false);
  problem = $state.raw<Problem | null>(null);
  chosen = $state(0);
  /** How many frames of the action may be repeated, as wished. */
  overlap = $state(0);
  /** The last question; the answer to an older one is dropped. */
  private question = 0;

  get points(): readonly MatchPoint[] {
    return this.found?.points ?? [];
  }

  get point(): MatchPoint | null {
    return this.points[this.chosen] ?? null;
  }

  /** What is chosen, with the overlap that is nearest to the wish. */
  get crossing(): Crossing | null {
    return this.point ? crossingOf(this.point, this.overlap) : null;
  }

  /** Asks, and keeps what is chosen where it is still offered. */
  async ask(questions: readonly (() => Promise<Matched>)[]): Promise<void> {
    this.question += 1;
    const { question } = this;
    this.asking = true;
    this.problem = null;
    const was = this.crossing;
    try {
      let found: Matched | null = null;
      for (const ask of questions) {
        found = await ask();
        if (question !== this.question) return;
        if (found.points.length > 0) break;
      }
      this.found = found;
      const again = this.points.findIndex((point) => point.leave === was?.leave);
      this.chosen = Math.max(0, again);
    } catch (why) {
      if (question !== this.question) return;
      this.found = null;
      this.problem = problemOf(why);
    }
    this.asking = false;
  }

  clear(): void {
    this.question += 1;
    this.found = null;
    this.problem = null;
    this.asking = false;
    this.chosen = 0;
  }
}

export function crossingOf(point: MatchPoint, overlap: number): Crossing | null {
  const entry = entryAt(point, overlap);
  return entry ? { leave: point.leave, enter: entry.enter } : null;
}

/** Frames of the two takes that are being marked. */
export interface Marking {
  readonly here: number;
  readonly there: number;
  /** The first pair, once it is set. */
  readonly first: { readonly here: number; readonly there: number } | null;
}

/** Fewer frames of a take are not laid in. Unit: frames. */
const LEAST = 8;

export class OnAction {
  /** The piece that is left; the first is 0. */
  at = $state(0);
  to = $state.raw<TakeOnRoll | null>(null);
  made = $state<Made>('join');
  /** Whether it comes back to the piece that was left. */
  comesBack = $state(true);
  byPictures = $state(false);
  marking = $state.raw<Marking | null>(null);
  twins = $state.raw<Twins | null>(null);
  readonly there = new Sought();
  readonly back = new Sought();

  constructor(
    private readonly desk: ActionDesk,
    private readonly room: ActionRoom,
  ) {}

  get pieces(): readonly Piece[] {
    return this.room.kept?.pieces ?? [];
  }

  get left(): Shot | null {
    const piece = this.pieces[this.at];
    return isShot(piece) ? piece : null;
  }

  get from(): TakeOnRoll | null {
    return takeOfPiece(this.left ?? undefined);
  }

  /** The take of the piece that comes next, where it is another one. */
  get next(): TakeOnRoll | null {
    const next = takeOfPiece(this.pieces[this.at + 1]);
    return next && this.from && !sameTake(next, this.from) ? next : null;
  }

  /** Whether the join can be put elsewhere: the take that is entered comes next. */
  get canMove(): boolean {
    return !!this.next && !!this.to && sameTake(this.next, this.to);
  }

  /** What is to become of the sheet, as far as it is chosen. */
  get cut(): ActionCut | null {
    const { to } = this;
    const there = this.there.crossing;
    if (!to || !there) return null;
    const back = this.made === 'lay_in' && this.comesBack ? this.back.crossing : null;
    if (this.made === 'lay_in' && this.comesBack && !back) return null;
    return { made: this.made, at: this.at, to, there, back };
  }

  /** Begins at a piece: with the take that comes next, else with the likeliest. */
  async begin(at: number): Promise<void> {
    this.at = at;
    this.there.clear();
    this.back.clear();
    this.marking = null;
    this.byPictures = false;
    this.twins = null;
    this.to = this.next;
    this.made = this.next ? 'join' : 'lay_in';
    if (!this.from) return;
    const twins = this.loadTwins();
    if (!this.to) {
      await twins;
      this.to = this.others[0]?.take ?? null;
    }
    await this.ask();
  }

  /** Which takes were found to show the same; without an answer nobody knows of any. */
  async loadTwins(): Promise<void> {
    try {
      this.twins = await this.desk.twins();
    } catch {
      this.twins = null;
    }
  }

  /** The other takes: the next on the sheet, those that show the same, those of the scene, the rest. */
  get others(): readonly { readonly take: TakeOnRoll; readonly why: Near }[] {
    const { from } = this;
    if (!from) return [];
    const logs = [...this.desk.rolls.values()].sort((a, b) =>
      compareRolls(a.roll.roll, b.roll.roll),
    );
    const takes = logs.flatMap((log) =>
      log.takes.map((take): TakeOnRoll => {
        const { in: first, out, action } = take;
        return {
          roll: log.roll.roll,
          in: first,
          out,
          slate: slateOfTake(take),
          action: action ?? '',
        };
      }),
    );
    const others = takes.filter((take) => !sameTake(take, from));
    const known = others.map((take) => ({ take, why: this.near(from, take) }));
    return known.sort((a, b) => NEAR.indexOf(a.why) - NEAR.indexOf(b.why));
  }

  private near(from: TakeOnRoll, take: TakeOnRoll): Near {
    if (this.next && sameTake(this.next, take)) return 'next';
    const pair = this.twins?.pairs.find(
      (one) =>
        (sameTake(one.from, from) && sameTake(one.to, take)) ||
        (sameTake(one.to, from) && sameTake(one.from, take)),
    );
    if (pair) return pair.by === 'marks' ? 'marked' : 'found';
    const scene = (slate: string) => /^\d+/.exec(slate)?.[0];
    return scene(take.slate) !== undefined && scene(take.slate) === scene(from.slate)
      ? 'scene'
      : 'other';
  }

  async choose(to: TakeOnRoll): Promise<void> {
    this.to = to;
    this.made = this.canMove ? 'join' : 'lay_in';
    this.marking = null;
    this.byPictures = false;
    this.there.clear();
    this.back.clear();
    await this.ask();
  }

  async make(made: Made): Promise<void> {
    this.made = made;
    this.there.clear();
    this.back.clear();
    await this.ask();
  }

  /** Looks once more by the pictures, or by the marks that are kept. */
  async askBy(pictures: boolean): Promise<void> {
    this.byPictures = pictures;
    this.there.clear();
    this.back.clear();
    await this.ask();
  }

  /** Asks where to cut; near the join first, where one is put elsewhere. */
  async ask(): Promise<void> {
    const { from, to, left, room } = this;
    const cut = room.kept?.cut;
    if (!from || !to || !left || cut === undefined) return;
    const within = (leave: [number, number]): MatchRequest => ({
      from: placeOf(from),
      to: placeOf(to),
      by_pictures: this.byPictures,
      look: true,
      leave,
      sheet: { cut, at: this.at, how: this.made },
    });
    const anywhere: [number, number] = [left.in + 1, this.made === 'join' ? from.out : left.out];
    const ranges = this.made === 'join' ? [nearJoin(left, from), anywhere] : [anywhere];
    await this.there.ask(ranges.map((range) => () => this.desk.matchTakes(within(range))));
    await this.askBack();
  }

  /** The way back depends on where the take was entered. */
  async askBack(): Promise<void> {
    const { from, to, left, room } = this;
    const cut = room.kept?.cut;
    const way = this.there.crossing;
    if (this.made !== 'lay_in' || !from || !to || !left || !way || cut === undefined) {
      this.back.clear();
      return;
    }
    const leave: [number, number] = [Math.min(way.enter + LEAST, to.out - 1), to.out + 1];
    const request: MatchRequest = {
      from: placeOf(to),
      to: placeOf(from),
      by_pictures: this.byPictures,
      look: true,
      leave,
      enter: [way.leave, left.out],
      sheet: { cut, at: this.at, how: 'back', left: way.leave, entered: way.enter },
    };
    await this.back.ask([() => this.desk.matchTakes(request)]);
  }

  /** Whether another place of the join had to be looked for than near where it lies. */
  get isFar(): boolean {
    const { left, from } = this;
    const point = this.there.points[0];
    if (this.made !== 'join' || !left || !from || !point) return false;
    const [first, thrown] = nearJoin(left, from);
    return point.leave < first || point.leave >= thrown;
  }

  /** Begins to mark, at the frames that lie at the join, or where the map says. */
  beginMarks(): void {
    const { from, to, left } = this;
    if (!from || !to || !left) return;
    const way = this.there.crossing;
    const next = this.pieces[this.at + 1];
    const there = way?.enter ?? (this.canMove && isShot(next) ? next.in : to.in);
    const here = way?.leave ?? left.out - 1;
    this.marking = { here: inside(from, here), there: inside(to, there), first: null };
  }

  /** Steps one of the two takes that are being marked. */
  step(which: 'here' | 'there', by: number): void {
    const { marking, from, to } = this;
    const take = which === 'here' ? from : to;
    if (!marking || !take) return;
    this.marking = { ...marking, [which]: inside(take, marking[which] + by) };
  }

  /** Why the second pair is none yet; empty where it may be marked. */
  get wrongPair(): string {
    const { marking } = this;
    if (!marking?.first) return '';
    const [here, there] = [marking.here - marking.first.here, marking.there - marking.first.there];
    if (here === 0 || there === 0) return 'Go on to another moment, in both takes.';
    return here > 0 === there > 0 ? '' : 'One take has gone on and the other back.';
  }

  /** The two frames show the same moment; the second pair is kept with the film. */
  async mark(): Promise<boolean> {
    const { marking, from, to } = this;
    if (!marking || !from || !to) return false;
    const { here, there, first } = marking;
    if (!first) {
      this.marking = { here, there, first: { here, there } };
      return false;
    }
    if (this.wrongPair !== '') return false;
    const pair = [first, { here, there }].sort((one, other) => one.here - other.here);
    const frames = (which: 'here' | 'there') => ({
      first: pair[0]?.[which] ?? 0,
      second: pair[1]?.[which] ?? 0,
    });
    const kept = await this.room.makeOfFilm({
      film_change: 'mark_moments',
      here: { roll: from.roll, ...frames('here') },
      there: { roll: to.roll, ...frames('there') },
    });
    if (!kept) return false;
    this.marking = null;
    this.byPictures = false;
    void this.loadTwins();
    await this.ask();
    return true;
  }

  /** The marks of the two takes are taken away. */
  async unmark(): Promise<void> {
    const { from, to } = this;
    const [first, second] = this.there.found?.marks ?? [];
    if (!from || !to || !first || !second || !this.there.found?.marks_kept) return;
    const gone = await this.room.makeOfFilm({
      film_change: 'unmark_moments',
      here: { roll: from.roll, first: first.here, second: second.here },
      there: { roll: to.roll, first: first.there, second: second.there },
    });
    if (!gone) return;
    void this.loadTwins();
    await this.askBy(false);
  }
}

/** Why a take is offered. */
export type Near = 'next' | 'marked' | 'found' | 'scene' | 'other';
export const NEAR: readonly Near[] = ['next', 'marked', 'found', 'scene', 'other'];

function placeOf({ roll, in: first }: TakeOnRoll): TakePlace {
  return { roll, in: first };
}

function inside(take: TakeOnRoll, frame: number): number {
  return Math.max(take.in, Math.min(frame, take.out - 1));
}
