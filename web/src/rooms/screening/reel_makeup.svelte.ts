// Reels made up: what is asked, and what the program says goes on which.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { Film, ReelPlan, ReelPlanRequest } from '$lib/api/wire';

export type MadeUpReel = ReelPlan['reels'][number];
type Stretch = MadeUpReel['wound'][number];

export interface ReelDesk {
  readonly film: Film | null;
  reelPlan(body: ReelPlanRequest): Promise<ReelPlan>;
  /** The labels on paper. */
  reelLabels(body: ReelPlanRequest): Promise<Blob>;
}

export const LIES = [
  { value: 'not-known', words: 'not said' },
  { value: 'heads', words: 'heads out' },
  { value: 'tails', words: 'tails out' },
] as const;
export const SOUNDS = [
  { value: '', words: 'not said' },
  { value: 'silent', words: 'silent' },
  { value: 'magnetic', words: 'magnetic' },
  { value: 'optical', words: 'optical' },
] as const;
export type Lies = (typeof LIES)[number]['value'];
export type Sound = (typeof SOUNDS)[number]['value'];

/** A number as it is typed, with a point or a comma; null where nothing is, NaN where it is none. */
export function numberFrom(typed: string): number | null {
  const plain = typed.trim().replace(',', '.');
  if (plain === '') return null;
  return /^\d*\.?\d+$/.test(plain) ? Number(plain) : Number.NaN;
}

export class ReelMakeup {
  /** The films, in the order in which they are shown. */
  films = $state.raw<readonly string[]>([]);
  leader = $state('10ft0');
  tail = $state('');
  spacing = $state('');
  hub = $state('');
  thickness = $state('');
  speed = $state('');
  reels = $state('');
  lies = $state<Lies>('not-known');
  sound = $state<Sound>('');
  picture = $state('');
  owner = $state('');
  date = $state('');
  plan = $state.raw<ReelPlan | null>(null);
  problem = $state<string | null>(null);
  /** Whether labels are being printed. */
  printing = $state(false);
  private asked = 0;

  constructor(private readonly desk: ReelDesk) {}

  /** Opened on a version; what was typed before stays. */
  begin(cut: string): void {
    const there = new Set(this.desk.film?.cuts.map((one) => one.cut));
    this.films = this.films.filter((name) => there.has(name));
    if (this.films.length === 0 && cut) this.films = [cut];
  }

  /** Versions that are not on the programme. */
  get others(): readonly string[] {
    const all = this.desk.film?.cuts.map((one) => one.cut) ?? [];
    return all.filter((name) => !this.films.includes(name));
  }

  add(cut: string): void {
    this.films = [...this.films, cut];
  }

  leaveOut(cut: string): void {
    this.films = this.films.filter((name) => name !== cut);
  }

  /** One place nearer the head. */
  earlier(cut: string): void {
    const at = this.films.indexOf(cut);
    if (at < 1) return;
    const films = [...this.films];
    films.splice(at, 1);
    films.splice(at - 1, 0, cut);
    this.films = films;
  }

  get request(): ReelPlanRequest {
    const said = (text: string) => text.trim() || null;
    const reels = this.reels.split(/[,;]/).map((name) => name.trim());
    return {
      cuts: [...this.films],
      leader: said(this.leader),
      tail_leader: said(this.tail),
      spacing: said(this.spacing),
      hub_mm: numberFrom(this.hub),
      thickness_mm: numberFrom(this.thickness),
      speed: said(this.speed.replace(',', '.')),
      reels: reels.filter(Boolean),
      lies: this.lies,
      sound: said(this.sound),
      picture: said(this.picture),
      owner: said(this.owner),
      date: said(this.date),
    };
  }

  /** The labels of the plan that is shown, as a PDF; null when they cannot be printed. */
  async labels(): Promise<Blob | null> {
    if (!this.plan?.fits || this.printing) return null;
    this.printing = true;
    try {
      return await this.desk.reelLabels(this.request);
    } catch (why) {
      this.problem = problemWords(problemOf(why));
      return null;
    } finally {
      this.printing = false;
    }
  }

  /** Asks anew; of several answers on their way only the last counts. */
  async ask(): Promise<void> {
    const mine = ++this.asked;
    const { request } = this;
    if (request.cuts?.length === 0) {
      this.plan = null;
      this.problem = 'No film is on the programme. Add one.';
      return;
    }
    for (const [what, value] of [
      ['The hub', request.hub_mm],
      ['The thickness', request.thickness_mm],
    ] as const) {
      if (Number.isNaN(value)) {
        this.problem = `${what} is a number of millimetres, such as 32 or 0.145.`;
        return;
      }
    }
    try {
      const plan = await this.desk.reelPlan(request);
      if (mine !== this.asked) return;
      this.plan = plan;
      this.problem = null;
    } catch (why) {
      if (mine === this.asked) this.problem = problemWords(problemOf(why));
    }
  }
}

const WHAT: Record<string, string> = {
  leader: 'head leader',
  spacing: 'spacing',
  tail_leader: 'tail leader',
};

/** `head leader`, `v2`, `v2, no. 1 to 12`. */
export function stretchWords(stretch: Pick<Stretch, 'what' | 'cut' | 'from' | 'to'>): string {
  if (stretch.what !== 'film') return WHAT[stretch.what] ?? stretch.what;
  const { from, to } = stretch;
  if (from == null || to == null) return stretch.cut ?? '';
  return from === to ? `${stretch.cut}, no. ${from}` : `${stretch.cut}, no. ${from} to ${to}`;
}

/** `A 50 ft reel`, or one's own by its name. */
export function reelName(reel: MadeUpReel['reel']): string {
  const feet = /^(\d+)ft$/.exec(reel.reel)?.[1];
  return feet && !reel.own ? `${feet} ft reel` : reel.reel;
}

/** What the drawing shows, for whoever listens. */
export function drawingWords(one: MadeUpReel): string {
  const { reel } = one;
  const rim = reel.flange_mm ? ` of ${reel.flange_mm} mm` : '';
  return (
    `${reelName(reel)}${rim}, hub ${reel.hub_mm} mm: the film is wound to ${one.across_mm} mm, ` +
    `and it is full at ${reel.full_mm} mm.`
  );
}
