// The cutting room's own state: which version, which join, which side, what is
// on trial. The server decides; this holds its answers and sends the changes.
import { problemOf, Refused } from '$lib/api/server';
import type { WithIt } from '$lib/desk/change_queue';
import type {
  Conflict,
  Cut,
  CutChange,
  FilmChange,
  Kept,
  PieceForm,
  Problem,
  Ways,
} from '$lib/api/wire';
import type { CutDesk, Overtaken } from './cut_desk';
import { joinWithin } from './joins';
import { firstDifference, formOf, isShot, samePieces } from './pieces';
import { OnTrial } from './on_trial.svelte';
import {
  changeOf,
  edgeBounds,
  edgeFrame,
  NOTHING_ON_TRIAL,
  pieceOfSide,
  type Side,
  type Trial,
  tried,
  triedSince,
  trialOn,
  trimmedTo,
  withPiece,
} from './trial';

export const VIEWS = ['two', 'joined', 'over'] as const;
export type View = (typeof VIEWS)[number];

/** Frames that are taken for a roll whose log has not come yet. */
const NOT_KNOWN = 100_000_000;

export class CuttingRoom {
  /** The version on the sheet. */
  version = $state<string | null>(null);
  /** The chosen join, by the piece before it; −1 is that of the head leader. */
  join = $state(0);
  side = $state<Side>('in');
  view = $state<View>('joined');
  /** What was refused, or could not be done, last. */
  problem = $state.raw<Problem | null>(null);
  /** Why the version could not be shown. */
  failed = $state.raw<Problem | null>(null);
  overtaken = $state.raw<Overtaken | null>(null);

  private readonly trial = new OnTrial();
  private asking: AbortController | null = null;
  /** When this window's last change had been kept as the trial began. */
  private keptAtBase = 0;
  /** A change of this window is on its way. */
  busy = $state(false);
  /** The last change that was asked for; true once it is kept. */
  private making: Promise<boolean> = Promise.resolve(true);

  /** The version as it is kept. */
  readonly kept = $derived.by(() =>
    this.version === null ? null : (this.desk.cuts.get(this.version) ?? null),
  );
  /** The version as it is shown: with what is on trial, by the server's word as soon as it is there. */
  readonly shown = $derived.by(() => this.trial.on(this.kept));

  /**
   * @param desk the film on the bench.
   * @param say says something to whoever listens.
   */
  constructor(
    private readonly desk: CutDesk,
    private readonly say: (words: string) => void = () => {},
  ) {}

  /** The version with what is on trial as it is now, which the screen may not show yet. */
  get now(): Cut | null {
    return this.trial.on(this.kept);
  }

  get onTrial(): boolean {
    return this.trial.size > 0;
  }

  isOnTrial(piece: number): boolean {
    return this.trial.has(piece);
  }

  /** The piece whose end is chosen. */
  get chosen(): number {
    return pieceOfSide(this.join, this.side);
  }

  /** Frames on a roll, as far as is known. */
  rollFrames(roll: string): number {
    const head = this.desk.film?.rolls.find((one) => one.roll === roll);
    return head?.frames ?? NOT_KNOWN;
  }

  /** Lays a version on the sheet. */
  async open(version: string): Promise<void> {
    if (this.version !== version) {
      this.putBack();
      this.version = version;
    }
    this.failed = null;
    if (this.desk.cuts.has(version)) return this.keepInside();
    try {
      await this.desk.loadCut(version);
      this.keepInside();
    } catch (why) {
      if (this.version === version) this.failed = problemOf(why);
    }
  }

  /** No version is there to be shown. */
  close(): void {
    this.putBack();
    this.version = null;
  }

  chooseJoin(join: number, side: Side = this.side): void {
    const pieces = this.shown?.pieces ?? [];
    this.join = joinWithin(join, pieces);
    this.side = side;
    this.keepSide();
  }

  /** A row is chosen by its piece: its head, which is where one trims first. */
  choosePiece(at: number): void {
    if (at <= 0) this.chooseJoin(0, 'out');
    else this.chooseJoin(at - 1, 'in');
  }

  chooseSide(side: Side): void {
    this.side = side;
    this.keepSide();
  }

  /** The next join, or the one before; false at the ends, where the key goes on by itself. */
  walk(by: 1 | -1): boolean {
    const pieces = this.shown?.pieces ?? [];
    const to = this.join + by;
    if (to < -1 || to > pieces.length - 1) return false;
    this.chooseJoin(to);
    return true;
  }

  /** Moves the chosen end by so many frames, on trial. */
  nudge(by: number): void {
    const piece = this.now?.pieces[this.chosen];
    const at = piece ? edgeFrame(piece, this.side) : null;
    if (at !== null) this.trimTo(at + by);
  }

  /** Brings the chosen end to the end of its take, or as near as the piece allows. */
  toTakeEnd(end: 'first' | 'last'): void {
    const piece = this.now?.pieces[this.chosen];
    if (!isShot(piece)) return;
    const [least, most] = edgeBounds(piece, this.side, this.rollFrames(piece.roll));
    const take = piece.take ?? { in: least, out: most + 1 };
    const to = end === 'first' ? Math.max(least, take.in) : Math.min(most, take.out - 1);
    this.trimTo(to);
  }

  /** Puts the chosen end at a frame, on trial. */
  trimTo(frame: number): void {
    const piece = this.now?.pieces[this.chosen];
    if (!isShot(piece)) return;
    const form = trimmedTo(formOf(piece), this.side, frame, this.rollFrames(piece.roll));
    if (form) this.tryPiece(this.chosen, form);
  }

  /** A piece as it might stand, on trial. */
  tryPiece(at: number, form: PieceForm): void {
    const { trial } = this;
    const base = trial.base ?? this.kept;
    if (!base || this.overtaken) return;
    this.problem = null;
    if (!trial.base) this.keptAtBase = this.desk.keptAt;
    trial.lay(base, withPiece(trial.pieces, base, at, form));
    trial.drawSoon();
    void this.ask();
  }

  /** What was on trial is put back as the sheet has it. */
  putBack(): void {
    this.asking?.abort();
    this.overtaken = null;
    this.trial.clear();
  }

  /** Keeps what is on trial; true when it is on the disk. */
  keep(): Promise<boolean> {
    return this.make([]);
  }

  /**
   * Makes a change, together with what is on trial; true when it is on the disk.
   * One at a time: each is made on what the one before it has led to.
   *
   * @param chosen the piece that is chosen then.
   */
  make(changes: readonly CutChange[], chosen?: number): Promise<boolean> {
    this.making = this.making.then(() => this.makeNow(changes, chosen));
    return this.making;
  }

  private async makeNow(changes: readonly CutChange[], chosen?: number): Promise<boolean> {
    const sent = this.trial.pieces;
    const base = this.trial.base ?? this.kept;
    const change = changeOf(sent, changes);
    if (!base || !change || this.version === null || this.overtaken) return false;
    const of: FilmChange = { film_change: 'change_cut', cut: this.version, cut_change: change };
    this.asking?.abort();
    this.busy = true;
    this.problem = null;
    try {
      const kept = await this.desk.change(of, base.revision, () => {
        this.goOn(base, sent);
        if (chosen !== undefined) this.choosePiece(chosen);
        this.keepInside();
        this.busy = false;
      });
      this.say(`Kept: ${kept.words}.`);
      return true;
    } catch (why) {
      this.refusedChange(why, base);
      return false;
    } finally {
      this.busy = false;
      if (!this.onTrial) this.trial.base = null;
    }
  }

  /** What was nudged while the change was on its way stays on trial, on what is kept now. */
  private goOn(base: Cut, sent: Trial): void {
    const { kept } = this;
    const { trial } = this;
    const more = trial.base ? triedSince(trial.pieces, sent, base) : NOTHING_ON_TRIAL;
    const again = kept && more.size > 0 ? trialOn(more, tried(base, sent), kept) : null;
    this.putBack();
    if (!kept || !again) return;
    this.keptAtBase = this.desk.keptAt;
    trial.lay(kept, again);
    trial.draw();
    void this.ask();
  }

  /** A change of the film itself, such as a new version; true when it is on the disk. */
  async makeOfFilm(change: FilmChange): Promise<boolean> {
    this.problem = null;
    this.busy = true;
    try {
      const kept = await this.desk.change(change, this.desk.film?.revision ?? 0);
      this.say(`Kept: ${kept.words}.`);
      return true;
    } catch (why) {
      this.problem = problemOf(why);
      return false;
    } finally {
      this.busy = false;
    }
  }

  /** Takes the last change back; what is on trial goes first. */
  async undo(): Promise<void> {
    if (this.onTrial) {
      this.putBack();
      this.say('What was on trial is put back.');
      return;
    }
    await this.step((withIt) => this.desk.undo(withIt), 'Taken back');
  }

  async redo(): Promise<void> {
    if (this.onTrial) return;
    await this.step((withIt) => this.desk.redo(withIt), 'Made again');
  }

  /** The user's word on a question: it is meant so, and not asked again. */
  answer(key: string, note = ''): Promise<boolean> {
    return this.makeOfFilm({ film_change: 'answer_question', key, note });
  }

  askAgain(key: string): Promise<boolean> {
    return this.makeOfFilm({ film_change: 'ask_again', key });
  }

  /**
   * The kept version was asked for anew: by this window, or because another has
   * changed it. What is on trial here is not lost.
   */
  heed(kept: Cut | null): void {
    const { base } = this.trial;
    if (!kept || !base || this.busy || this.overtaken || kept === base) return;
    if (samePieces(kept.pieces, base.pieces) && kept.usual_join === base.usual_join) {
      this.trial.base = kept;
      this.trial.drawSoon();
      void this.ask();
      return;
    }
    this.overtake(base, this.desk.keptAt !== this.keptAtBase);
  }

  /** Keeps once more what was on trial, on the version as it stands now. */
  async keepMineAgain(): Promise<boolean> {
    const { overtaken, kept } = this;
    if (!overtaken || !kept) return false;
    const again = trialOn(overtaken.trial, overtaken.was, kept);
    if (!again) return false;
    this.overtaken = null;
    this.trial.lay(kept, again);
    this.trial.draw();
    return this.keep();
  }

  /** Whether what was on trial still has a place in the version as it stands now. */
  get canKeepMine(): boolean {
    const { overtaken, kept } = this;
    return !!overtaken && !!kept && trialOn(overtaken.trial, overtaken.was, kept) !== null;
  }

  /** The ways out of a conflict of the version as it is shown, where there are too many to know them all. */
  async waysOf(conflict: Conflict, signal: AbortSignal): Promise<Ways | null> {
    const at = this.shown?.check.conflicts.indexOf(conflict) ?? -1;
    if (this.version === null || at < 0) return null;
    const change = changeOf(this.trial.pieces);
    return this.desk.waysOut(this.version, { conflict: at, change }, signal);
  }

  private async step(go: (withIt: WithIt) => Promise<Kept>, said: string): Promise<void> {
    const before = this.kept;
    this.problem = null;
    try {
      const kept = await go(() => {
        const after = this.kept;
        const at = before && after ? firstDifference(before.pieces, after.pieces) : null;
        if (at !== null) this.choosePiece(at);
        this.keepInside();
      });
      this.say(`${said}: ${kept.words}.`);
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  private refusedChange(why: unknown, base: Cut): void {
    if (why instanceof Refused && why.stale && this.onTrial) {
      this.overtake(base, false);
      if (this.version !== null) void this.desk.loadCut(this.version).catch(() => undefined);
      return;
    }
    this.problem = problemOf(why);
    if (why instanceof Refused && why.stale && this.version !== null) {
      void this.desk.loadCut(this.version).catch(() => undefined);
    }
    if (this.onTrial) void this.ask();
  }

  private overtake(base: Cut, own: boolean): void {
    this.asking?.abort();
    this.overtaken = { own, was: base, trial: this.trial.pieces };
    this.trial.clear();
    this.keepInside();
    const who = own ? 'This version was changed.' : 'Another window has changed this version.';
    this.say(`${who} What you had on trial is kept.`);
  }

  /** Asks the server for the version with what is on trial; an older question is dropped. */
  private async ask(): Promise<void> {
    this.asking?.abort();
    const { trial } = this;
    const change = changeOf(trial.pieces);
    if (!change || this.version === null) {
      if (!this.busy) trial.base = null;
      trial.draw();
      return;
    }
    const asking = new AbortController();
    this.asking = asking;
    try {
      const answer = await this.desk.tryCut(this.version, change, asking.signal);
      if (this.asking !== asking || asking.signal.aborted) return;
      trial.answer = answer;
      trial.draw();
    } catch (why) {
      if (!asking.signal.aborted) this.problem = problemOf(why);
    }
  }

  private keepInside(): void {
    this.join = joinWithin(this.join, this.now?.pieces ?? []);
    this.keepSide();
  }

  /** At the ends of the film only one side has a piece. */
  private keepSide(): void {
    const pieces = this.now?.pieces ?? [];
    if (this.join < 0) this.side = 'in';
    else if (this.join >= pieces.length - 1) this.side = 'out';
  }
}
