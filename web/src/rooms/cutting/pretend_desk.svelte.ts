// A desk for the tests: the server's part is played here, answers come when told to.
import { Refused } from '$lib/api/server';
import type { WithIt } from '$lib/desk/change_queue';
import type {
  Cut,
  CutChange,
  Film,
  FilmChange,
  Kept,
  PieceForm,
  RollLog,
  Ways,
} from '$lib/api/wire';
import { boat, film, version } from './boat_v1';
import type { CutDesk } from './cut_desk';
import { formOf } from './pieces';

/** Pieces after a change, as the server makes it. */
function changed(forms: PieceForm[], change: CutChange): PieceForm[] {
  const next = [...forms];
  if (change.change === 'insert') next.splice(change.at, 0, change.piece);
  else if (change.change === 'remove') next.splice(change.at, 1);
  else if (change.change === 'replace') next[change.at] = change.piece;
  else if (change.change === 'move') next.splice(change.to, 0, ...next.splice(change.from, 1));
  else if (change.change === 'all') return change.changes.reduce(changed, next);
  return next;
}

export class PretendDesk implements CutDesk {
  cuts = $state.raw<ReadonlyMap<string, Cut>>(new Map([['v1', boat()]]));
  film = $state.raw<Film | null>(film([boat()]));
  readonly rolls: ReadonlyMap<string, RollLog> = new Map();
  keptAt = $state(0);
  readonly sent: { change: FilmChange; seen: number }[] = [];
  readonly tried: { change: CutChange; signal: AbortSignal | undefined }[] = [];
  /** How often the film was asked for. */
  loads = 0;
  private revision = 7;
  private readonly past: Cut[] = [];
  private answers: (() => void)[] = [];

  get v1(): Cut {
    const cut = this.cuts.get('v1');
    if (!cut) throw new Error('there is a v1');
    return cut;
  }

  load(): Promise<Film | null> {
    this.loads += 1;
    return Promise.resolve(this.film);
  }

  loadCut(): Promise<Cut> {
    return Promise.resolve(this.v1);
  }

  change(change: FilmChange, seen: number, withIt?: WithIt): Promise<Kept> {
    this.sent.push({ change, seen });
    if (seen < this.v1.revision) return Promise.reject(stale());
    if (change.film_change === 'remove_cut') {
      this.revision += 1;
      return Promise.resolve({ revision: this.revision, already: false, words: 'throw v1 away' });
    }
    if (change.film_change === 'answer_question') {
      const { key, note } = change;
      return Promise.resolve(this.answerIs(key, { note: note ?? '' }));
    }
    if (change.film_change === 'ask_again')
      return Promise.resolve(this.answerIs(change.key, { note: null }));
    if (change.film_change !== 'change_cut') return Promise.reject(stale());
    this.past.push(this.v1);
    return this.settle(this.put(this.after(change.cut_change), 'change v1'), withIt);
  }

  tryCut(_: string, change: CutChange, signal?: AbortSignal): Promise<Cut> {
    this.tried.push({ change, signal });
    const answer = { ...this.after(change), on_trial: true };
    return new Promise((done) => this.answers.push(() => done(answer)));
  }

  waysOut(): Promise<Ways> {
    return Promise.resolve({ remedies: [], mend_all: [] });
  }

  undo(withIt?: WithIt): Promise<Kept> {
    const before = this.past.pop();
    if (!before) return Promise.reject(stale());
    return this.settle(this.put(before.pieces.map(formOf), 'change v1'), withIt);
  }

  private settle(kept: Kept, withIt: WithIt | undefined): Promise<Kept> {
    withIt?.(kept);
    return Promise.resolve(kept);
  }

  redo(): Promise<Kept> {
    return Promise.reject(stale());
  }

  /** A question of v1 is open without a note, and answered with one. */
  private answerIs(key: string, { note }: { note: string | null }): Kept {
    const { check } = this.v1;
    const all = [...check.questions, ...check.answered].map((one) =>
      one.key === key ? { ...one, note } : one,
    );
    const isOpen = (one: { note?: string | null }) => (one.note ?? null) === null;
    const questions = all.filter(isOpen);
    const answered = all.filter((one) => !isOpen(one));
    this.revision += 1;
    const now = { ...this.v1, revision: this.revision, check: { ...check, questions, answered } };
    this.cuts = new Map([['v1', now]]);
    return { revision: this.revision, already: false, words: 'the answer about a hop' };
  }

  /** All trials are answered. */
  async answer(): Promise<void> {
    const due = this.answers;
    this.answers = [];
    due.forEach((answer) => answer());
    await Promise.resolve();
    await Promise.resolve();
  }

  /** Another window changes the version. */
  changeElsewhere(change: CutChange): void {
    this.revision += 1;
    this.cuts = new Map([['v1', this.cutOf(this.formsAfter(change))]]);
  }

  private after(change: CutChange): Cut {
    return this.cutOf(this.formsAfter(change));
  }

  private formsAfter(change: CutChange): PieceForm[] {
    return changed(this.v1.pieces.map(formOf), change);
  }

  private cutOf(forms: readonly PieceForm[]): Cut {
    return version(forms, 'tape', this.revision);
  }

  private put(now: Cut | PieceForm[], words: string): Kept {
    this.revision += 1;
    const forms = Array.isArray(now) ? now : now.pieces.map(formOf);
    const cut = this.cutOf(forms);
    this.cuts = new Map([['v1', cut]]);
    this.keptAt += 1;
    return { revision: this.revision, already: false, words, cut };
  }
}

function stale(): Refused {
  const problem = {
    code: 'store.stale',
    message: 'another window has changed v1',
    hint: 'look at it and do it again',
    details: null,
  };
  return new Refused(problem, 409);
}
