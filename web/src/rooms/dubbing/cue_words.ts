// What the chart and the card say of a cue.
import { footageText } from '$lib/film/footage';
import { grouped } from '$lib/film/grouped';
import { runningTime, secondsText } from '$lib/film/running_time';
import type { Speed } from '$lib/film/speed';
import type { ChartScale } from './chart_scale';
import type { Cue, CueState, Dub, Sound } from './dub_types';
import { levelText } from './level_line';

export const STATE_WORDS: Record<CueState, string> = {
  held: 'held',
  moved: 'moved',
  stretched: 'stretched',
  orphan: 'orphan',
};

/** What became of a cue since it was last laid, in a sentence. */
export function stateSaid(cue: Cue): string {
  const was = cue.was ?? null;
  if (cue.state === 'orphan') {
    return cue.cue.left
      ? 'Orphan, left so: what it held to is not in this version.'
      : 'Orphan: what it held to is not in this version.';
  }
  if (cue.state === 'moved' && was !== null) {
    const by = cue.at - was;
    return `Moved with what it holds to: ${grouped(Math.abs(by))} ${plural(Math.abs(by), 'frame')} ${by > 0 ? 'later' : 'sooner'}.`;
  }
  if (cue.state === 'stretched') return `Stretched: now ${grouped(cue.frames)} frames.`;
  return 'Where it was.';
}

export const plural = (count: number, one: string) => (count === 1 ? one : `${one}s`);

/** `1 ft 20 fr · 92 frames · 5.01 s`. */
export function lengthSaid(frames: number, speed: Speed, perFoot: number): string {
  const seconds = secondsText(runningTime(frames, speed), 2);
  return `${footageText(frames, perFoot)} · ${grouped(frames)} ${plural(frames, 'frame')} · ${seconds} s`;
}

/** How a cue is named on the chart: an effect with its frame, a bed by its name. */
export function cueCalled(cue: Cue, sounds: readonly Sound[]): string {
  const sound = sounds.find((one) => one.id === cue.cue.sound);
  return cue.cue.name || sound?.sound.name || 'by hand';
}

/** What a screen reader hears of a cue. */
export function cueSpoken(cue: Cue, sounds: readonly Sound[], column: string): string {
  const said = [
    `${cueCalled(cue, sounds)}, ${column}`,
    `in ${grouped(cue.at)}`,
    `${grouped(cue.frames)} ${plural(cue.frames, 'frame')}`,
    cue.state === 'held' ? '' : STATE_WORDS[cue.state],
    levelText(cue.cue.level),
    cue.echo ? echoSaid(cue) : '',
  ];
  return said.filter(Boolean).join(', ');
}

/** `2 frames from the rustle`, as the slip of an echo says it. */
export function echoSaid(cue: Cue, sounds: readonly Sound[] = []): string {
  if (!cue.echo) return '';
  const away = Math.abs(cue.echo.frames_away);
  const heard = `join ${grouped(cue.echo.join_at)} is heard at ${grouped(cue.echo.heard_at)}`;
  const name = cueCalled(cue, sounds);
  return away === 0
    ? `${heard}: on the ${name}`
    : `${heard}: ${away} ${plural(away, 'frame')} from the ${name}`;
}

/** Orphans of one column that each have a place proposed: one slip for them all. */
export interface Proposed {
  readonly column: number;
  readonly cues: readonly Cue[];
}

export function proposedTogether(dub: Dub): Proposed[] {
  return dub.columns
    .map(({ id }) => ({
      column: id,
      cues: dub.cues.filter((cue) => cue.cue.column === id && isAsked(cue)),
    }))
    .filter(({ cues }) => cues.length > 0);
}

/** Whether something is to be decided about a cue. */
export function isAsked(cue: Cue): boolean {
  return cue.state === 'orphan' && !cue.cue.left;
}

/** `Three orphan cues: the bell at 1,392 · 1,410 · 1,429 left the cut.` */
export function orphansHeading(cues: readonly Cue[], sounds: readonly Sound[]): string {
  const places = cues.map((cue) => grouped(cue.at)).join(' · ');
  const first = cues[0];
  const name = first ? cueCalled(first, sounds) : '';
  const count =
    cues.length === 1 ? 'One orphan cue' : `${NUMBERS[cues.length] ?? cues.length} orphan cues`;
  return `${count}: ${name} at ${places} left the cut.`;
}

const NUMBERS = ['', 'One', 'Two', 'Three', 'Four', 'Five', 'Six', 'Seven', 'Eight', 'Nine'];

/** The cue that comes next, from a frame on; one that is without a place is none. */
export function nextCue(dub: Dub, at: number): Cue | null {
  return dub.cues.find((cue) => cue.at > at && cue.state !== 'orphan') ?? null;
}

/** Orphans closer than this share one word. Unit: px. */
const CROWDED = 22;

/**
 * Orphans that lie so close that their words would cover each other: the last of a crowd
 * speaks for all of them, the others say nothing (0).
 */
export function orphanCrowds(
  cues: readonly Cue[],
  scale: Pick<ChartScale, 'y'>,
): ReadonlyMap<number, number> {
  const crowds = new Map<number, number>();
  const lost = cues.filter((cue) => cue.state === 'orphan');
  for (const column of new Set(lost.map((cue) => cue.cue.column))) {
    const here = lost.filter((cue) => cue.cue.column === column).sort((a, b) => a.at - b.at);
    let so = 0;
    here.forEach((cue, nth) => {
      so += 1;
      const next = here[nth + 1];
      const isLast = !next || scale.y(next.at - cue.at) >= CROWDED;
      crowds.set(cue.id, isLast ? so : 0);
      if (isLast) so = 0;
    });
  }
  return crowds;
}

/** A word on the chart is so high. Unit: px. */
const WORD = 19;
/** Words that would be pushed further than this are not written until their cue is chosen. */
const FARTHEST = 2 * WORD;

/**
 * How far the word of a cue stands below its beginning, so that words of cues that follow one
 * another fast do not cover each other; null for an effect where there is no room. Unit: px.
 */
export function wordsBelow(
  cues: readonly Cue[],
  scale: Pick<ChartScale, 'y'>,
): ReadonlyMap<number, number | null> {
  const words = new Map<number, number | null>();
  const placed = cues.filter((cue) => cue.state !== 'orphan');
  for (const column of new Set(placed.map((cue) => cue.cue.column))) {
    const here = placed.filter((cue) => cue.cue.column === column).sort((a, b) => a.at - b.at);
    let free = -Infinity;
    for (const cue of here) {
      const at = scale.y(cue.at);
      const down = Math.max(free - at, 0);
      const fits = down <= FARTHEST || !isDrop(cue, scale);
      words.set(cue.id, fits ? down : null);
      if (fits) free = at + down + WORD;
    }
  }
  return words;
}

/** What is over in a moment is drawn as a drop: its sharp edge is the first sound. */
export function isDrop(cue: Cue, scale: Pick<ChartScale, 'y'>): boolean {
  return cue.cue.stroke || scale.y(cue.frames) < 16;
}
