// The lined script: which lines stand beside which scene, and how they run.
import type {
  ActionCover,
  Coverage,
  LinedTake,
  Scene,
  Script,
  SetupKept,
  Shown,
} from './script_types';

/** What a setup does while an action goes on. */
export type Seen = 'on' | 'off' | 'not';

/** A line down the script: a setup while it is planned, a take once it is shot. */
export interface Line {
  readonly key: string;
  /** As it is slated: `3A`, or `3A-T2`. */
  readonly name: string;
  readonly setup: SetupKept;
  readonly take: LinedTake | null;
  readonly circled: boolean;
  /** Shot and no good: it covers nothing. */
  readonly ng: boolean;
}

/** How a line passes an action: what is seen, and whether the line begins or ends there. */
export interface Pass {
  readonly seen: Seen;
  readonly begins: boolean;
  readonly ends: boolean;
  /** The line goes on further down; here nothing of it is wanted. */
  readonly waits: boolean;
}

export type View = 'planned' | 'shot';

/** The lines of a scene, in the order of the script and then of the takes. */
export function linesOf(script: Script, scene: Scene, view: View): Line[] {
  const names = new Set(scene.actions.map((action) => action.name));
  const here = script.setups.filter(
    ({ setup, is_title }) =>
      !is_title &&
      (setup.shown.some((shown) => names.has(shown.action)) || setup.scene === scene.number),
  );
  if (view === 'planned') {
    return here.map((setup) => ({
      key: `s${setup.id}`,
      name: setup.setup.name,
      setup,
      take: null,
      circled: false,
      ng: false,
    }));
  }
  return here.flatMap((setup) =>
    script.takes
      .filter((take) => take.setup === setup.setup.name)
      .sort((a, b) => a.take - b.take)
      .map((take) => ({
        key: `t${take.roll}.${take.in}`,
        name: `${take.setup}-T${take.take}`,
        setup,
        take,
        circled: take.rating === 'circled',
        ng: take.rating === 'ng',
      })),
  );
}

/** What a setup does while each of these actions goes on. */
export function seenIn(setup: SetupKept, actions: readonly string[]): Seen[] {
  const shown = new Map(
    setup.setup.shown.map((one) => [one.action, one.off_camera ? 'off' : 'on'] as const),
  );
  return actions.map((action) => shown.get(action) ?? 'not');
}

/** How the line passes each of these actions, from its first bar to its last. */
export function passes(seen: readonly Seen[]): Pass[] {
  const first = seen.findIndex((one) => one !== 'not');
  const last = seen.map((one) => one !== 'not').lastIndexOf(true);
  return seen.map((one, at) => ({
    seen: one,
    begins: one !== 'not' && (at === 0 || seen[at - 1] === 'not'),
    ends: one !== 'not' && (at === seen.length - 1 || seen[at + 1] === 'not'),
    waits: one === 'not' && (at < first || (at > first && at < last)),
  }));
}

/** What a setup shows once its actions in a scene were drawn anew; other scenes stay. */
export function shownAnew(
  before: readonly Shown[],
  actions: readonly string[],
  seen: readonly Seen[],
) {
  const here = new Set(actions);
  const others = before.filter((one) => !here.has(one.action));
  const drawn = actions.flatMap((action, at) =>
    seen[at] === 'not' || seen[at] === undefined
      ? []
      : [{ action, off_camera: seen[at] === 'off' }],
  );
  return [...others, ...drawn];
}

const NEXT: Record<Seen, Seen> = { not: 'on', on: 'off', off: 'not' };

/** What Space makes of it: on camera, off camera, nothing. */
export function nextSeen(seen: Seen): Seen {
  return NEXT[seen];
}

/** In words, for whoever does not see the line. */
export function seenWords(seen: Seen): string {
  return seen === 'on' ? 'on camera' : seen === 'off' ? 'off camera' : 'not in it';
}

/** Why an action is asked about. */
export type Worry = 'nothing' | 'one take' | 'one setup' | null;

export function worryOf(cover: ActionCover): Worry {
  if (cover.by.length === 0) return 'nothing';
  if (cover.takes === 1) return 'one take';
  return cover.by.length === 1 ? 'one setup' : null;
}

/** The next action that something should be done about; at the last one there is none. */
export function nextWorry(coverage: Coverage, from: string | null): string | null {
  const all = coverage.by_action;
  const urgent = all.filter((one) => ['nothing', 'one take'].includes(worryOf(one) ?? ''));
  const at = all.findIndex((one) => one.action === from);
  return urgent.find((one) => all.indexOf(one) > at)?.action ?? null;
}
