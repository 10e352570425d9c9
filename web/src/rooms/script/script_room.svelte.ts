// What the Script room holds: the script as the program gives it, and what is chosen.
import { problemOf } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import { type Line, linesOf, nextWorry, type Seen, seenIn, type View } from './lined';
import { Pen } from './pen.svelte';
import type { ScriptDesk } from './script_desk';
import { ScriptWriter } from './script_writer.svelte';
import type {
  Action,
  Coverage,
  Imported,
  LinedTake,
  Plan,
  SceneKept,
  Script,
  ScriptChange,
  ScriptPart,
} from './script_types';

export type Panel = 'coverage' | 'stock' | 'report' | 'camera' | 'sounds' | 'places';

export class ScriptRoom {
  script = $state.raw<Script | null>(null);
  plan = $state.raw<Plan | null>(null);
  /** Why there is no plan. */
  noPlan = $state.raw<Problem | null>(null);
  planning = $state(false);
  failed = $state.raw<Problem | null>(null);
  /** Why the last change was not kept. */
  refused = $state.raw<Problem | null>(null);
  told = $state.raw<Imported | null>(null);
  /** A file is on its way in. */
  bringing = $state(false);

  panel = $state<Panel>('coverage');
  /** What the user chose; null while nobody has. */
  private asked = $state<View | null>(null);
  /** Whether the lines lie over the words, which have the whole width then. */
  over = $state(false);
  action = $state<string | null>(null);
  /** The line that is chosen, by its key. */
  line = $state<string | null>(null);
  /** The setup whose card lies open: its number, or `new` with its scene. */
  card = $state.raw<{ id: number } | null>(null);

  private loading: Promise<void> | null = null;
  private wanted = 0;
  private plannedAt = -1;

  /** Draws lines down the script. */
  readonly pen = new Pen(this);
  /** Writes its words. */
  readonly writer = new ScriptWriter(this);

  constructor(private readonly desk: ScriptDesk) {}

  /** Once it is shot, what was shot is what matters. */
  readonly view: View = $derived(
    this.asked ?? ((this.script?.takes.length ?? 0) > 0 ? 'shot' : 'planned'),
  );

  look(view: View): void {
    this.asked = view;
    this.line = null;
  }

  readonly coverage: Coverage | null = $derived(
    this.view === 'shot' ? (this.script?.shot ?? null) : (this.script?.planned ?? null),
  );

  /** The one take of a setup is meant so: it is kept with the film. */
  leaveSo(setup: string): Promise<boolean> {
    const setups = [...new Set([...(this.script?.set_may_go ?? []), setup])];
    return this.change({ part: 'set_may_go', setups });
  }

  /** One more take of a setup than it has. */
  async planRetake(name: string): Promise<void> {
    const setup = this.script?.setups.find((one) => one.setup.name === name);
    if (!setup) return;
    const takes = Math.max(setup.setup.takes, setup.shot) + 1;
    const kept = await this.change(
      { part: 'setup', setup: { ...setup.setup, takes } },
      { id: setup.id },
    );
    if (kept) this.panel = 'stock';
  }

  readonly isEmpty = $derived(
    this.script !== null && this.script.scenes.length === 0 && this.script.setups.length === 0,
  );

  /** Every action with its scene, in the order of the film. */
  readonly rows: readonly { scene: SceneKept; at: number; action: Action }[] = $derived(
    (this.script?.scenes ?? []).flatMap((scene) =>
      scene.scene.actions.map((action, at) => ({ scene, at, action })),
    ),
  );

  readonly row = $derived(this.rows.find((one) => one.action.name === this.action) ?? null);

  linesOf(scene: SceneKept): Line[] {
    return this.script ? linesOf(this.script, scene.scene, this.view) : [];
  }

  /** What a line shows, with what is being drawn on it. */
  seenOf(scene: SceneKept, line: Line): readonly Seen[] {
    const { drawing } = this.pen;
    if (drawing?.scene === scene.id && drawing.setup?.id === line.setup.id) return drawing.seen;
    const names = scene.scene.actions.map((action) => action.name);
    return seenIn(line.setup, names);
  }

  /** Asks for the script anew. What is on its way already may be older than what was just kept. */
  async load(): Promise<void> {
    this.wanted += 1;
    this.loading ??= this.loadAll().finally(() => (this.loading = null));
    return this.loading;
  }

  private async loadAll(): Promise<void> {
    for (let had = 0; had < this.wanted; ) {
      had = this.wanted;
      await this.loadOnce();
    }
  }

  private async loadOnce(): Promise<void> {
    try {
      this.script = await this.desk.load();
      this.failed = null;
      this.action ??= this.rows[0]?.action.name ?? null;
      if (this.panel === 'stock') void this.reckon();
    } catch (why) {
      this.failed = problemOf(why);
    }
  }

  /** Reckons the plan, if what it is reckoned from is another than before. */
  async reckon(): Promise<void> {
    const { script } = this;
    if (!script || this.planning || this.plannedAt === script.revision) return;
    this.planning = true;
    this.plannedAt = script.revision;
    try {
      this.plan = await this.desk.plan();
      this.noPlan = null;
    } catch (why) {
      this.plan = null;
      this.noPlan = problemOf(why);
    }
    this.planning = false;
    if (this.script && this.script.revision !== this.plannedAt) await this.reckon();
  }

  async change(
    to: ScriptPart,
    place: { id?: number | null; after?: number | null; seen?: number | undefined } = {},
  ): Promise<boolean> {
    const change: ScriptChange = { id: place.id ?? null, after: place.after ?? null, to };
    try {
      await this.desk.change(change, place.seen ?? this.script?.revision ?? 0);
      this.refused = null;
    } catch (why) {
      this.refused = problemOf(why);
      await this.load();
      return false;
    }
    await this.load();
    return true;
  }

  async bringIn(file: File): Promise<void> {
    this.bringing = true;
    try {
      this.told = await this.desk.bringIn(file);
      this.refused = null;
    } catch (why) {
      this.told = null;
      this.refused = problemOf(why);
    }
    this.bringing = false;
    await this.load();
  }

  async keepPhotograph(file: File): Promise<string | null> {
    try {
      return await this.desk.keepPhotograph(file);
    } catch (why) {
      this.refused = problemOf(why);
      return null;
    }
  }

  inCamera() {
    return this.desk.inCamera();
  }

  oneMore(setup: string) {
    return this.desk.oneMore(setup);
  }

  /** Writes a line into the note of the chosen setup, or of the scene one is in. */
  async use(text: string): Promise<void> {
    const { row } = this;
    if (!row) return;
    const setup = this.chosenLine?.setup ?? null;
    const added = (note: string) => (note === '' ? text : `${note}\n${text}`);
    if (setup) {
      const words = { ...setup.setup, note: added(setup.setup.note) };
      await this.change({ part: 'setup', setup: words }, { id: setup.id });
    } else {
      await this.writer.putScene(row.scene, { note: added(row.scene.scene.note) });
    }
  }

  // Walking.

  step(by: number): void {
    const at = this.rows.findIndex((one) => one.action.name === this.action);
    const to = Math.min(Math.max(at + by, 0), this.rows.length - 1);
    this.choose(this.rows[to]?.action.name ?? null);
  }

  choose(action: string | null): void {
    const before = this.row?.scene.id;
    this.action = action;
    // A line belongs to its scene.
    if (this.row?.scene.id !== before) this.line = null;
  }

  aside(by: number): void {
    const { row } = this;
    if (!row) return;
    const lines = this.linesOf(row.scene);
    if (lines.length === 0) return;
    const at = lines.findIndex((line) => line.key === this.line);
    const to = at < 0 ? (by > 0 ? 0 : lines.length - 1) : at + by;
    this.line = lines[Math.min(Math.max(to, 0), lines.length - 1)]?.key ?? null;
  }

  readonly chosenLine: Line | null = $derived.by(() => {
    if (!this.row || this.line === null) return null;
    return this.linesOf(this.row.scene).find((line) => line.key === this.line) ?? null;
  });

  /** Goes to the first action that a setup shows. */
  chooseSetup(name: string): void {
    const setup = this.script?.setups.find((one) => one.setup.name === name);
    const first = setup?.setup.shown[0];
    if (!setup || !first) return;
    this.choose(first.action);
    this.line = this.row
      ? (this.linesOf(this.row.scene).find((line) => line.setup.id === setup.id)?.key ?? null)
      : null;
  }

  nextQuestion(): boolean {
    const next = this.coverage && nextWorry(this.coverage, this.action);
    if (!next) return false;
    this.choose(next);
    return true;
  }

  /** A take gets its ring, or loses it. */
  async circle(take: LinedTake): Promise<void> {
    try {
      await this.desk.circle(take);
      this.refused = null;
    } catch (why) {
      this.refused = problemOf(why);
    }
    await this.load();
  }
}
