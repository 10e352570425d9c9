// Where the film of a roll changes: breaks with what speaks for them, and bare or
// burnt film. What a person decided stands in the takes, what was seen in the report.
import type { RollLog, Sign, Take } from '$lib/api/wire';
import { type JoinOnFilm, joinsOf } from './joins_found';
import { beginsWords } from './words_of_roll';

export type BreakSeen = NonNullable<RollLog['report']>['breaks'][number];

/** How a change stands: only breaks are decided on. */
export type ChangeState =
  /** A take begins there, and nobody has looked at it yet. */
  | 'to look at'
  /** A take begins there, and somebody lets it stand. */
  | 'stands'
  /** The reading saw a break; no take begins there now. */
  | 'taken back'
  /** Bare film, burnt film, light inside a take, a join: told, and nothing to decide. */
  | 'told';

export interface FilmChanged {
  readonly key: string;
  /** The first frame after the change. */
  readonly at: number;
  /** Frames over which it goes on; for a break an empty span. */
  readonly first: number;
  readonly thrown: number;
  /** `camera stop`, `join`, `dissolve`, `leader`. */
  readonly words: string;
  readonly state: ChangeState;
  /** The take that begins there. */
  readonly take: Take | null;
  /** What the reading saw there; null where it saw no break. */
  readonly seen: BreakSeen | null;
  /** The fade or dissolve that leads over, or the sign of bare film. */
  readonly span: Sign | null;
  /** The join that was found there with the film in the hand. */
  readonly found: JoinOnFilm | null;
}

const SPANS: Record<string, string> = {
  fade_in: 'fade in',
  fade_out: 'fade out',
  dissolve: 'dissolve',
  fog: 'fog',
  leader: 'leader',
  black: 'black',
  flash: 'flash in the take',
};

/** Which signs are changes of the film, and no faults of it. */
const BARE = ['fog', 'leader', 'black', 'flash'];

/** Fog counted in frames is that of the ends of a roll; any other is a sign of stray light. */
function isBare(sign: Sign): boolean {
  return BARE.includes(sign.kind) && (sign.kind !== 'fog' || sign.unit === 'frames');
}

/** Where the take of a fade or dissolve begins. */
function beginOf(span: Sign): number {
  return span.kind === 'dissolve' ? span.in + Math.floor((span.out - span.in) / 2) : span.in;
}

/** A break where a join was found says which: `cement join`, `camera stop, tape join`. */
function withJoin(words: string, found: JoinOnFilm | null): string {
  if (!found) return words;
  return words === 'join' || words === 'break' ? found.words : `${words}, ${found.words}`;
}

function breakAt(at: number, log: RollLog, found: JoinOnFilm | null): FilmChanged {
  const take = log.takes.find((one) => one.in === at) ?? null;
  const seen = log.report?.breaks.find((one) => one.at === at) ?? null;
  const gradual = log.report?.gradual ?? [];
  const span = gradual.find((one) => one.kind !== 'fade_out' && beginOf(one) === at) ?? null;
  // Set by hand at a place the reading saw: what was seen says more than "break".
  const byHand = take === null || take.begins === 'cut';
  const begins = (byHand ? seen?.begins : undefined) ?? take?.begins ?? 'cut';
  return {
    key: `break ${at}`,
    at,
    first: span?.in ?? at,
    thrown: span?.out ?? at,
    words: withJoin(span ? (SPANS[span.kind] ?? 'fade') : beginsWords(begins), found),
    state: take ? (take.looked ? 'stands' : 'to look at') : 'taken back',
    take,
    seen,
    span,
    found,
  };
}

function bare(sign: Sign): FilmChanged {
  return {
    key: `${sign.kind} ${sign.in}`,
    at: sign.in,
    first: sign.in,
    thrown: sign.out,
    words: SPANS[sign.kind] ?? sign.kind,
    state: 'told',
    take: null,
    seen: null,
    span: sign,
    found: null,
  };
}

/** A join inside a take. */
function joined(found: JoinOnFilm): FilmChanged {
  const { frame, words } = found;
  return {
    key: `join ${frame}`,
    at: frame,
    first: frame,
    thrown: frame,
    words,
    state: 'told',
    take: null,
    seen: null,
    span: null,
    found,
  };
}

/** Every change of a roll, from its head down. */
export function changesOf(log: RollLog): FilmChanged[] {
  const begins = log.takes.map((take) => take.in).filter((at) => at > 0);
  const seen = (log.report?.breaks ?? []).map((one) => one.at);
  const places = [...new Set([...begins, ...seen])];
  // A flash that a take begins with is told by its break.
  const inside = (sign: Sign) => sign.kind !== 'flash' || !places.includes(sign.in);
  const spans = [
    ...(log.report?.signs ?? []).filter(isBare).filter(inside),
    ...(log.report?.gradual ?? []).filter((one) => one.kind === 'fade_out'),
  ];
  const joins = joinsOf(log);
  const all = [
    ...places.map((at) => breakAt(at, log, joins.find((join) => join.frame === at) ?? null)),
    ...spans.map(bare),
    ...joins.filter((join) => !places.includes(join.frame)).map(joined),
  ];
  return all.sort((a, b) => a.at - b.at || a.thrown - b.thrown);
}

/** How many breaks nobody has looked at. */
export function leftToLook(changes: readonly FilmChanged[]): number {
  return changes.filter((one) => one.state === 'to look at').length;
}

/** The next break that nobody has looked at, behind a frame; from the head again at the end. */
export function nextToLook(changes: readonly FilmChanged[], frame: number): FilmChanged | null {
  const open = changes.filter((one) => one.state === 'to look at');
  return open.find((one) => one.at > frame) ?? open[0] ?? null;
}

/** The change nearest to a frame. */
export function nearestChange(changes: readonly FilmChanged[], frame: number): FilmChanged | null {
  let found: FilmChanged | null = null;
  for (const one of changes) {
    if (!found || Math.abs(one.at - frame) < Math.abs(found.at - frame)) found = one;
  }
  return found;
}

/** So many frames are laid out about a change. */
export const FRAMES_ABOUT = 8;

/**
 * The frames to lay out about a change, from the top down: those on either side of a
 * break, moved along where one has stepped on; of a longer change, frames evenly from
 * just before it until just after.
 */
export function framesAbout(change: FilmChanged, frame: number, frames: number): number[] {
  const long = change.thrown - change.first;
  const half = FRAMES_ABOUT / 2;
  const inside = (at: number) => Math.max(0, Math.min(at, frames - 1));
  if (long > FRAMES_ABOUT - 2 && frame >= change.first - 1 && frame <= change.thrown) {
    const steps = FRAMES_ABOUT - 1;
    const at = (nth: number) => inside(change.first - 1 + Math.round((nth * (long + 1)) / steps));
    return [...new Set(Array.from({ length: FRAMES_ABOUT }, (_, nth) => at(nth)))];
  }
  const middle = change.state === 'told' ? change.first : change.at;
  const least = Math.min(middle - half, frame - 1);
  const from = frame >= middle + half ? frame - FRAMES_ABOUT + 2 : least;
  const first = Math.max(0, Math.min(from, frames - FRAMES_ABOUT));
  const count = Math.min(FRAMES_ABOUT, frames);
  return Array.from({ length: count }, (_, nth) => first + nth);
}

/** A frame to look at large, and what it is. */
export interface LargeFrame {
  readonly frame: number;
  readonly words: string;
}

/** How far behind a flash the exposure is settled. Unit: frames. */
const SETTLED = 12;

/** The frames to look at large, side by side. */
export function largeFrames(change: FilmChanged, frames: number): LargeFrame[] {
  const { first, thrown, at, span } = change;
  const shown: LargeFrame[] = [];
  const add = (frame: number, words: string) => {
    if (frame >= 0 && frame < frames && !shown.some((one) => one.frame === frame)) {
      shown.push({ frame, words });
    }
  };
  if (span && change.state !== 'told') {
    add(first - 1, 'before');
    add(at, 'here the take begins');
    add(thrown, 'after');
    return shown;
  }
  if (span) {
    const until = span.kind === 'flash' ? thrown - 1 + SETTLED : thrown;
    add(first - 1, 'before');
    add(Math.floor((first + thrown - 1) / 2), change.words);
    add(until, 'after');
    return shown;
  }
  add(at - 1, 'last before');
  add(at, 'first after');
  const flash = change.take?.flash_frames ?? change.seen?.flash_frames ?? 0;
  if (flash > 0) {
    const end = change.take ? change.take.out - 1 : frames - 1;
    add(Math.min(at + flash - 1 + SETTLED, end), 'settled');
  }
  return shown;
}
