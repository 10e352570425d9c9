// One film as this window sees it: the documents it shows, and its changes.
import { NotReached, type Server, told } from '$lib/api/server';
import type {
  Compared,
  Cut,
  CutChange,
  Film,
  FilmChange,
  GradingCard,
  Job,
  JobEvent,
  Kept,
  LightAsked,
  LightSolved,
  MatchRequest,
  Matched,
  Part,
  ReelPlan,
  ReelPlanRequest,
  RollLog,
  TakePlace,
  Throw,
  ThrowRequest,
  Twins,
  Ways,
  WaysRequest,
} from '$lib/api/wire';
import { ChangeQueue, type Sent, type WithIt } from './change_queue';
import type { Connection } from './connection.svelte';

/**
 * Changes that are heard of are looked at after so long, many at once: the answer
 * to a change of this window's own is drawn first. Unit: milliseconds.
 */
const REST = 60;

type Changed = Extract<JobEvent, { event: 'changed' }>;

export class FilmDesk {
  /** The film itself: rolls, versions, notes. Null until it has come. */
  film = $state.raw<Film | null>(null);
  /** Rolls with their logs, by name, as far as a room has asked for them. */
  rolls = $state.raw<ReadonlyMap<string, RollLog>>(new Map());
  /** Versions with their checks, by name, as far as a room has asked for them. */
  cuts = $state.raw<ReadonlyMap<string, Cut>>(new Map());
  /** Changes that are not on the disk yet. */
  waiting = $state(0);
  /** When the last change was kept; the key line says "kept" for a while. */
  keptAt = $state(0);

  private readonly queue: ChangeQueue;
  private heard: Changed[] = [];
  private resting: ReturnType<typeof setTimeout> | null = null;
  private readonly stops: (() => void)[];

  constructor(
    readonly name: string,
    private readonly server: Server,
    private readonly connection: Connection,
  ) {
    this.queue = new ChangeQueue(
      (sent) => this.send(sent),
      (waiting) => (this.waiting = waiting),
    );
    this.stops = [
      connection.hear((event) => this.hear(event)),
      connection.onReturn(() => this.comeBack()),
    ];
  }

  /** No longer on the bench. */
  leave(): void {
    this.stops.forEach((stop) => stop());
    if (this.resting) clearTimeout(this.resting);
  }

  async load(): Promise<Film> {
    const path = { film: this.name };
    this.film = await told(this.server.GET('/api/films/{film}', { params: { path } }));
    return this.film;
  }

  async loadRoll(roll: string): Promise<RollLog> {
    const path = { film: this.name, roll };
    const log = await told(this.server.GET('/api/films/{film}/rolls/{roll}', { params: { path } }));
    this.putRoll(log);
    return log;
  }

  async loadCut(cut: string): Promise<Cut> {
    const path = { film: this.name, cut };
    const found = await told(this.server.GET('/api/films/{film}/cuts/{cut}', { params: { path } }));
    this.putCut(found);
    return found;
  }

  /**
   * Asks for a change of what was seen at a revision: that of the document the
   * change was made on. Settles when it is kept; a stale one is refused and
   * whoever asked keeps what was typed.
   */
  change(change: FilmChange, seen: number, withIt?: WithIt): Promise<Kept> {
    return this.queue.ask({ kind: 'change', change, seen, withIt });
  }

  /** Changes a version as this window shows it. */
  changeCut(cut: string, cut_change: CutChange): Promise<Kept> {
    const seen = this.cuts.get(cut)?.revision ?? this.film?.revision ?? 0;
    return this.change({ film_change: 'change_cut', cut, cut_change }, seen);
  }

  /** A version as it would stand after a change; nothing is kept. */
  tryCut(cut: string, change: CutChange, signal?: AbortSignal): Promise<Cut> {
    const path = { film: this.name, cut };
    const asked = this.server.POST('/api/films/{film}/cuts/{cut}/trial', {
      params: { path },
      body: change,
      ...(signal ? { signal } : {}),
    });
    return told(asked);
  }

  /** The ways out of one conflict, of a version that has many. */
  waysOut(cut: string, body: WaysRequest, signal: AbortSignal): Promise<Ways> {
    const params = { path: { film: this.name, cut } };
    return told(this.server.POST('/api/films/{film}/cuts/{cut}/ways', { params, body, signal }));
  }

  /** What leads from one version to another. */
  compareCuts(from: string, to: string): Promise<Compared> {
    const path = { film: this.name, cut: from, to };
    const asked = this.server.GET('/api/films/{film}/cuts/{cut}/compared/{to}', {
      params: { path },
    });
    return told(asked);
  }

  /** What goes on which reel; nothing is kept. */
  reelPlan(body: ReelPlanRequest): Promise<ReelPlan> {
    const params = { path: { film: this.name } };
    return told(this.server.POST('/api/films/{film}/reel-plan', { params, body }));
  }

  /** The labels of those reels on paper, as a PDF. */
  reelLabels(body: ReelPlanRequest): Promise<Blob> {
    const params = { path: { film: this.name } };
    const asked = this.server.POST('/api/films/{film}/reel-plan/labels', {
      params,
      body,
      parseAs: 'blob',
    });
    return told<Blob>(asked);
  }

  /** The light of the shots as it is kept. */
  gradingCard(): Promise<GradingCard> {
    const params = { path: { film: this.name } };
    return told(this.server.GET('/api/films/{film}/light', { params }));
  }

  /** Shots solved together from the same things in them; nothing is kept. */
  solveLight(body: LightAsked): Promise<LightSolved> {
    const params = { path: { film: this.name } };
    return told(this.server.POST('/api/films/{film}/light/solved', { params, body }));
  }

  /** The grading card as an ASC CDL collection. */
  decisionList(): Promise<Blob> {
    const params = { path: { film: this.name } };
    const asked = this.server.GET('/api/films/{film}/light/cdl', { params, parseAs: 'blob' });
    return told<Blob>(asked);
  }

  /** The grading card of a version on paper, as a PDF. */
  gradingOnPaper(cut: string): Promise<Blob> {
    const params = { path: { film: this.name, cut } };
    const asked = this.server.GET('/api/films/{film}/cuts/{cut}/grading-card', {
      params,
      parseAs: 'blob',
    });
    return told<Blob>(asked);
  }

  /** How far the projector stands, how large the picture is. */
  throwOf(body: ThrowRequest): Promise<Throw> {
    return told(this.server.POST('/api/throw', { body }));
  }

  /** Two takes beside each other, and where to cut from one to the other. */
  matchTakes(body: MatchRequest): Promise<Matched> {
    const params = { path: { film: this.name } };
    return told(this.server.POST('/api/films/{film}/match', { params, body }));
  }

  /** Which takes show the same action. */
  twins(): Promise<Twins> {
    const params = { path: { film: this.name } };
    return told(this.server.GET('/api/films/{film}/twins', { params }));
  }

  /** Begins to look for them: one take beside all others. */
  lookForTwins(of: TakePlace): Promise<Job> {
    const params = { path: { film: this.name } };
    return told(this.server.POST('/api/films/{film}/twins', { params, body: { of } }));
  }

  undo(withIt?: WithIt): Promise<Kept> {
    return this.queue.ask({ kind: 'undo', withIt });
  }

  redo(withIt?: WithIt): Promise<Kept> {
    return this.queue.ask({ kind: 'redo', withIt });
  }

  private async send(sent: Sent): Promise<Kept> {
    const { key, wish, revision } = sent;
    const params = { path: { film: this.name } };
    try {
      let kept: Kept;
      if (wish.kind === 'change') {
        const body = { key, revision, change: wish.change };
        kept = await told(this.server.POST('/api/films/{film}/changes', { params, body }));
      } else if (wish.kind === 'undo') {
        kept = await told(this.server.POST('/api/films/{film}/undo', { params, body: { key } }));
      } else {
        kept = await told(this.server.POST('/api/films/{film}/redo', { params, body: { key } }));
      }
      this.keep(kept);
      wish.withIt?.(kept);
      return kept;
    } catch (why) {
      if (why instanceof NotReached) this.connection.notReached();
      throw why;
    }
  }

  /** What a change has led to is shown before any event comes. */
  private keep(kept: Kept): void {
    if (kept.cut) this.putCut(kept.cut);
    if (kept.roll) this.putRoll(kept.roll);
    if (this.film) {
      this.film = { ...this.film, undo: kept.undo ?? null, redo: kept.redo ?? null };
    }
    this.keptAt = Date.now();
  }

  private putRoll(log: RollLog): void {
    const known = this.rolls.get(log.roll.roll);
    if (known && known.revision > log.revision) return;
    this.rolls = new Map(this.rolls).set(log.roll.roll, log);
  }

  private putCut(cut: Cut): void {
    const known = this.cuts.get(cut.cut);
    if (known && known.revision > cut.revision) return;
    this.cuts = new Map(this.cuts).set(cut.cut, cut);
  }

  private hear(event: JobEvent): void {
    if (event.event === 'lost') return void this.refresh();
    if (event.event !== 'changed' || event.film !== this.name) return;
    this.heard.push(event);
    this.resting ??= setTimeout(() => void this.heedAll(), REST);
  }

  private async heedAll(): Promise<void> {
    this.resting = null;
    const { heard } = this;
    this.heard = [];
    await this.again(() => this.load());
    this.forgetThrownAway();
    for (const event of heard) {
      for (const part of event.parts) this.heed(part, event.revision);
    }
  }

  /** Versions that were thrown away are not asked for again. */
  private forgetThrownAway(): void {
    const { film } = this;
    if (!film) return;
    const there = [...this.cuts].filter(([name]) => film.cuts.some((one) => one.cut === name));
    if (there.length < this.cuts.size) this.cuts = new Map(there);
  }

  /** A part was changed: what this window shows of it is asked for anew, unless
   * the answer to its own change has brought it already. */
  private heed(part: Part, revision: number): void {
    if (part.part === 'cut') {
      const known = this.cuts.get(part.cut);
      if (known && known.revision < revision) void this.again(() => this.loadCut(part.cut));
    } else if (part.part === 'sign_limits') {
      // Every roll tells its signs anew.
      for (const roll of this.rolls.keys()) void this.again(() => this.loadRoll(roll));
    } else if (part.part === 'answers' || part.part === 'twins') {
      // What was answered is asked in no version any more; what shows the same
      // is a way out of a conflict in every one.
      for (const cut of this.cuts.keys()) void this.again(() => this.loadCut(cut));
    } else if (part.part === 'roll' || part.part === 'takes') {
      const known = this.rolls.get(part.roll);
      // What a new reading brings comes without a change of the film.
      const lacks =
        known && !known.roll.paper && (!known.roll.workprint || (known.not_kept?.length ?? 0) > 0);
      if (known && (lacks || known.revision < revision)) {
        void this.again(() => this.loadRoll(part.roll));
      }
      // The log belongs to every version that shows the roll.
      for (const cut of this.cuts.keys()) void this.again(() => this.loadCut(cut));
    }
  }

  /** What is gone meanwhile need not be shown. */
  private async again(load: () => Promise<unknown>): Promise<void> {
    try {
      await load();
    } catch {
      // A version or roll that was taken away; the film's own list says so.
    }
  }

  private async refresh(): Promise<void> {
    await this.again(() => this.load());
    for (const roll of this.rolls.keys()) await this.again(() => this.loadRoll(roll));
    for (const cut of this.cuts.keys()) await this.again(() => this.loadCut(cut));
  }

  private comeBack(): void {
    this.queue.goOn();
    void this.refresh();
  }
}
