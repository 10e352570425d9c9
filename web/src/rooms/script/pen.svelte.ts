// The pen that draws lines down the script; nothing is kept before it is lifted.
import { type Line, nextSeen, type Seen, seenIn, shownAnew } from './lined';
import type { ScriptRoom } from './script_room.svelte';
import type { SceneKept, SetupKept } from './script_types';

/** A line that is being drawn. */
export interface Drawing {
  readonly scene: number;
  /** Null for a setup that is begun with this line. */
  readonly setup: SetupKept | null;
  readonly pen: Seen;
  readonly seen: readonly Seen[];
}

export class Pen {
  /** What it draws: on camera, off camera, or nothing, which rubs out. */
  tip = $state<Seen>('on');
  drawing = $state.raw<Drawing | null>(null);

  constructor(private readonly room: ScriptRoom) {}

  begin(scene: SceneKept, line: Line | null, at: number): void {
    if (this.room.view !== 'planned') return;
    const names = scene.scene.actions.map((action) => action.name);
    const seen = line ? seenIn(line.setup, names) : names.map(() => 'not' as const);
    this.drawing = { scene: scene.id, setup: line?.setup ?? null, pen: this.tip, seen };
    this.draw(at);
  }

  draw(at: number): void {
    const { drawing } = this;
    if (!drawing || drawing.seen[at] === drawing.pen) return;
    const seen = drawing.seen.map((one, nth) => (nth === at ? drawing.pen : one));
    this.drawing = { ...drawing, seen };
  }

  /** The pen is lifted: what was drawn is kept. */
  async lift(): Promise<void> {
    const { drawing } = this;
    if (!drawing) return;
    const scene = this.room.script?.scenes.find((one) => one.id === drawing.scene);
    if (scene) await this.keepDrawn(scene, drawing.setup, drawing.seen);
    this.drawing = null;
  }

  putBack(): void {
    this.drawing = null;
  }

  private async keepDrawn(scene: SceneKept, setup: SetupKept | null, seen: readonly Seen[]) {
    const names = scene.scene.actions.map((action) => action.name);
    const before = setup ? seenIn(setup, names) : names.map(() => 'not');
    if (before.every((one, at) => one === seen[at])) return;
    const shown = shownAnew(setup?.setup.shown ?? [], names, seen);
    if (setup) {
      await this.room.change({ part: 'setup', setup: { ...setup.setup, shown } }, { id: setup.id });
      return;
    }
    const siblings = this.room.script?.setups.filter(
      (one) => one.setup.scene === scene.scene.number,
    );
    const after = siblings?.at(-1)?.id ?? null;
    const { number } = scene.scene;
    await this.room.change({ part: 'setup', setup: { ...blankSetup(number), shown } }, { after });
  }

  /** Space: the chosen line at the chosen action, or the ring of the chosen take. */
  async mark(): Promise<void> {
    const { row, chosenLine: line } = this.room;
    if (!row || !line) return;
    if (line.take) {
      await this.room.circle(line.take);
      return;
    }
    const names = row.scene.scene.actions.map((action) => action.name);
    const seen = seenIn(line.setup, names).map((one, at) => (at === row.at ? nextSeen(one) : one));
    await this.keepDrawn(row.scene, line.setup, seen);
  }
}

/** A setup about which nothing is said yet. */
function blankSetup(scene: string): SetupKept['setup'] {
  return {
    name: '',
    scene,
    shown: [],
    size: '',
    move: '',
    action: '',
    sound: '',
    mover: '',
    direction: '',
    cast: [],
    props: [],
    seconds: '',
    takes: 2,
    dissolve: 0,
    note: '',
  };
}
