// A floor plan while it is drawn: nothing is kept before the user keeps it.
import type { FloorPlan } from '../script_types';
import type { Thing } from './FloorPlanDrawing.svelte';
import { bearing, fieldAngle, overTheLine, type Point, pointOf } from './plan_geometry';

export type Tool = 'hold' | 'wall' | 'person' | 'camera' | 'line';

/** Steps back that are remembered while it is drawn. */
const REMEMBERED = 100;

export class FloorPlanForm {
  plan = $state.raw<FloorPlan>(blankPlan());
  tool = $state<Tool>('hold');
  chosen = $state.raw<Thing | null>(null);
  private before = $state.raw<readonly FloorPlan[]>([]);
  /** A wall that goes on with the next press. */
  private goesOn = false;

  constructor(
    plan: FloorPlan,
    /** Width of the camera's picture. Unit: millimetres. */
    private readonly pictureMm: number,
  ) {
    this.plan = plan;
  }

  readonly fields = $derived(
    this.plan.cameras.map((camera) => ({
      angle: fieldAngle(this.pictureMm, camera.lens),
      over_the_line: overTheLine(
        this.plan.line_of_action,
        pointOf(this.plan.cameras[0]?.at ?? []),
        pointOf(camera.at),
      ),
    })),
  );

  readonly canGoBack = $derived(this.before.length > 0);

  put(change: Partial<FloorPlan>): void {
    this.before = [...this.before.slice(-REMEMBERED), this.plan];
    this.plan = { ...this.plan, ...change };
  }

  back(): void {
    const last = this.before.at(-1);
    if (!last) return;
    this.plan = last;
    this.before = this.before.slice(0, -1);
    this.chosen = null;
    this.goesOn = false;
  }

  take(tool: Tool): void {
    this.tool = tool;
    this.goesOn = false;
  }

  /** A press on the ground, with the tool in the hand. */
  press(at: Point): void {
    const { plan } = this;
    const point: [number, number] = [...at];
    switch (this.tool) {
      case 'hold':
        this.chosen = null;
        return;
      case 'wall': {
        const last = plan.lines.at(-1);
        if (this.goesOn && last) {
          const longer = { ...last, points: [...last.points, point] };
          this.put({ lines: [...plan.lines.slice(0, -1), longer] });
        } else {
          this.put({ lines: [...plan.lines, { points: [point], words: '' }] });
        }
        this.goesOn = true;
        const line = this.plan.lines.length - 1;
        this.chosen = {
          kind: 'point',
          at: line,
          nth: (this.plan.lines[line]?.points.length ?? 1) - 1,
        };
        return;
      }
      case 'person':
        this.put({ marks: [...plan.marks, { words: '', at: point, goes_to: null }] });
        this.chosen = { kind: 'mark', at: plan.marks.length, nth: 0 };
        this.tool = 'hold';
        return;
      case 'camera': {
        const middle: Point = [plan.width / 2, plan.height / 2];
        const camera = { setup: '', at: point, looks: bearing(at, middle), lens: 125 };
        this.put({ cameras: [...plan.cameras, camera] });
        this.chosen = { kind: 'camera', at: plan.cameras.length, nth: 0 };
        this.tool = 'hold';
        return;
      }
      case 'line':
        this.put({ line_of_action: [point, point] });
        this.chosen = { kind: 'line', at: 0, nth: 1 };
        this.tool = 'hold';
    }
  }

  /** Takes hold of something; moving it is one step. */
  hold(thing: Thing): void {
    this.chosen = thing;
    this.tool = 'hold';
    this.goesOn = false;
    this.before = [...this.before.slice(-REMEMBERED), this.plan];
  }

  /** Moves what is held. */
  move(at: Point): void {
    const { chosen, plan } = this;
    if (!chosen) return;
    const point: [number, number] = [...at];
    this.plan = { ...plan, ...moved(plan, chosen, point) };
  }

  /** Moves it a little, by keys. */
  nudge(x: number, y: number): void {
    const at = this.where;
    if (!this.chosen || !at) return;
    this.before = [...this.before.slice(-REMEMBERED), this.plan];
    const within = (value: number, most: number) => Math.min(Math.max(value, 0), most);
    this.move([within(at[0] + x, this.plan.width), within(at[1] + y, this.plan.height)]);
  }

  /** Where what is held stands. */
  get where(): Point | null {
    const { chosen, plan } = this;
    if (!chosen) return null;
    switch (chosen.kind) {
      case 'camera':
        return found(plan.cameras[chosen.at]?.at);
      case 'mark':
        return found(plan.marks[chosen.at]?.at);
      case 'goes':
        return found(plan.marks[chosen.at]?.goes_to);
      case 'point':
        return found(plan.lines[chosen.at]?.points[chosen.nth]);
      case 'line':
        return found(plan.line_of_action?.[chosen.nth]);
    }
  }

  /** What is held goes. */
  strike(): void {
    const { chosen, plan } = this;
    if (!chosen) return;
    const others = <T>(all: readonly T[]) => all.filter((_, at) => at !== chosen.at);
    switch (chosen.kind) {
      case 'camera':
        this.put({ cameras: others(plan.cameras) });
        break;
      case 'mark':
        this.put({ marks: others(plan.marks) });
        break;
      case 'goes':
        this.putMark(chosen.at, { goes_to: null });
        break;
      case 'point':
        this.put({ lines: others(plan.lines) });
        break;
      case 'line':
        this.put({ line_of_action: null });
    }
    this.chosen = null;
  }

  putCamera(at: number, words: Partial<FloorPlan['cameras'][number]>): void {
    const cameras = this.plan.cameras.map((one, nth) => (nth === at ? { ...one, ...words } : one));
    this.put({ cameras });
  }

  putMark(at: number, words: Partial<FloorPlan['marks'][number]>): void {
    const marks = this.plan.marks.map((one, nth) => (nth === at ? { ...one, ...words } : one));
    this.put({ marks });
  }

  putWords(at: number, words: string): void {
    const lines = this.plan.lines.map((one, nth) => (nth === at ? { ...one, words } : one));
    this.put({ lines });
  }
}

const found = (raw: readonly number[] | null | undefined) => (raw ? pointOf(raw) : null);

function moved(plan: FloorPlan, { kind, at, nth }: Thing, point: [number, number]) {
  const with_ = <T>(all: readonly T[], change: (one: T) => T) =>
    all.map((one, which) => (which === at ? change(one) : one));
  switch (kind) {
    case 'camera':
      return { cameras: with_(plan.cameras, (one) => ({ ...one, at: point })) };
    case 'mark':
      return { marks: with_(plan.marks, (one) => ({ ...one, at: point })) };
    case 'goes':
      return { marks: with_(plan.marks, (one) => ({ ...one, goes_to: point })) };
    case 'point':
      return {
        lines: with_(plan.lines, (one) => ({
          ...one,
          points: one.points.map((old, which) => (which === nth ? point : old)),
        })),
      };
    case 'line': {
      const [from, to] = plan.line_of_action ?? [point, point];
      const line: FloorPlan['line_of_action'] =
        nth === 0 ? [point, to ?? point] : [from ?? point, point];
      return { line_of_action: line };
    }
  }
}

/** A place of ten metres by six with nothing in it. */
export function blankPlan(): FloorPlan {
  return {
    name: '',
    scenes: [],
    width: 1000,
    height: 600,
    north: 0,
    latitude: null,
    longitude: null,
    day: '',
    utc_offset: 0,
    lines: [],
    line_of_action: null,
    cameras: [],
    marks: [],
  };
}
