// The hand that writes the words of the script. What is typed stays open until it is kept.
import type { ScriptRoom } from './script_room.svelte';
import type { Action, Scene, SceneKept } from './script_types';

/** What lies open to be written: an action, or the heading of a scene. */
export interface Writing {
  readonly scene: number;
  /** The place of the action in its scene; null for the heading. */
  readonly at: number | null;
  /** What was seen when it was opened: what another window wrote since is not written over. */
  readonly seen: number;
}

export class ScriptWriter {
  writing = $state.raw<Writing | null>(null);

  constructor(private readonly room: ScriptRoom) {}

  write(scene: number, at: number | null): void {
    this.writing = { scene, at, seen: this.room.script?.revision ?? 0 };
  }

  /** A new action behind the chosen one, or a first one. */
  async insert(): Promise<void> {
    const row = this.room.row ?? null;
    const scene = row?.scene ?? this.room.script?.scenes.at(-1);
    if (!scene) return void (await this.newScene());
    const at = row ? row.at + 1 : scene.scene.actions.length;
    const blank = { name: '', text: '', speaker: null };
    const actions = inserted(scene.scene.actions, at, blank);
    if (await this.putScene(scene, { actions })) {
      this.write(scene.id, at);
      this.room.choose(
        this.room.rows.find((one) => one.scene.id === scene.id && one.at === at)?.action.name ??
          null,
      );
    }
  }

  async newScene(): Promise<void> {
    const after = this.room.row?.scene.id ?? this.room.script?.scenes.at(-1)?.id ?? null;
    const blank = { name: '', text: '', speaker: null };
    const scene = { number: '', heading: '', actions: [blank], note: '' };
    const known = new Set(this.room.script?.scenes.map((one) => one.id));
    if (!(await this.room.change({ part: 'scene', scene }, { after }))) return;
    const made = this.room.script?.scenes.find((one) => !known.has(one.id));
    if (!made) return;
    this.room.choose(made.scene.actions[0]?.name ?? null);
    this.write(made.id, null);
  }

  putScene(kept: SceneKept, words: Partial<Scene>): Promise<boolean> {
    const seen = this.writing?.scene === kept.id ? this.writing.seen : undefined;
    return this.room.change(
      { part: 'scene', scene: { ...kept.scene, ...words } },
      { id: kept.id, seen },
    );
  }

  /** What was typed stays open where it could not be kept. */
  async keepAction(kept: SceneKept, at: number, words: Partial<Action>): Promise<void> {
    const actions = kept.scene.actions.map((one, nth) => (nth === at ? { ...one, ...words } : one));
    this.wrote(await this.putScene(kept, { actions }));
  }

  /** Who was told that another window was faster has seen it: keeping once more is meant. */
  private wrote(kept: boolean): void {
    const seen = this.room.script?.revision ?? 0;
    this.writing = kept || !this.writing ? null : { ...this.writing, seen };
  }

  async keepHead(kept: SceneKept, words: Partial<Scene>): Promise<void> {
    this.wrote(await this.putScene(kept, words));
  }

  async removeAction(kept: SceneKept, at: number): Promise<void> {
    const actions = kept.scene.actions.filter((_, nth) => nth !== at);
    if (!(await this.putScene(kept, { actions }))) return;
    this.writing = null;
    this.room.choose(this.room.rows.find((one) => one.scene.id === kept.id)?.action.name ?? null);
  }

  async removeScene(kept: SceneKept): Promise<void> {
    if (!(await this.room.change({ part: 'gone' }, { id: kept.id, seen: this.writing?.seen })))
      return;
    this.writing = null;
    this.room.choose(this.room.rows[0]?.action.name ?? null);
  }
}

function inserted<T>(all: readonly T[], at: number, one: T): T[] {
  return [...all.slice(0, at), one, ...all.slice(at)];
}
