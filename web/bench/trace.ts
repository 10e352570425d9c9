// The browser's own trace: what was marked in the page, which of the page's
// frames it belongs to, and when that frame stood on the display. A frame is
// there once the compositor has drawn it and the display has swapped.
import type { Browser, Page } from 'playwright-core';
import type { Mark } from './stopwatch';

/** Categories that hold what is looked for, and little else. */
const CATEGORIES = ['-*', 'blink.user_timing', 'benchmark', 'viz'];

interface TraceEvent {
  readonly name: string;
  readonly pid: number;
  /** Unit: microseconds, as is `dur`. */
  readonly ts: number;
  readonly dur?: number;
  readonly args?: {
    readonly main_frame_pipeline?: { readonly main_frame_id?: string; readonly step?: string };
  };
}

/** A frame of the page that was handed to the compositor. */
interface Frame {
  readonly pid: number;
  readonly begin: number;
  readonly end: number;
  readonly id: string;
}

/** What happened while a trace was kept, and the trace. */
export async function traced(
  browser: Browser,
  page: Page,
  act: () => Promise<void>,
): Promise<Trace> {
  await browser.startTracing(page, { categories: CATEGORIES });
  await act();
  return new Trace((await browser.stopTracing()).toString());
}

export class Trace {
  private readonly events: readonly TraceEvent[];
  private readonly frames: readonly Frame[];
  private readonly drawn: ReadonlyMap<string, number>;
  private readonly swaps: readonly number[];

  constructor(trace: string) {
    // Numbers of frames are longer than a number can be: they are read as words.
    const spelled = trace.replace(/("main_frame_id":)(\d+)/g, '$1"$2"');
    const { traceEvents } = JSON.parse(spelled) as { traceEvents: TraceEvent[] };
    this.events = traceEvents.sort((a, b) => a.ts - b.ts);
    const committed = new Set(this.steps('COMMIT_ON_MAIN').map(idOf));
    this.frames = this.steps('BEGIN_MAIN_FRAME')
      .filter((event) => committed.has(idOf(event)))
      .map((event) => ({
        pid: event.pid,
        begin: event.ts,
        end: event.ts + (event.dur ?? 0),
        id: idOf(event),
      }));
    this.drawn = new Map(this.steps('DRAW').map((event) => [idOf(event), event.ts]));
    this.swaps = this.events
      .filter((event) => event.name === 'Display::DrawAndSwap')
      .map((event) => event.ts + (event.dur ?? 0));
  }

  /** False where this browser traces otherwise: then nothing can be said. */
  get tells(): boolean {
    return this.frames.length > 0 && this.drawn.size > 0 && this.swaps.length > 0;
  }

  /** When each mark was left, in their order. Unit: milliseconds, as all that follows. */
  marks(name: Mark): number[] {
    return this.events.filter((event) => event.name === name).map((event) => event.ts / 1000);
  }

  /**
   * When the display showed what the page had drawn at each mark of a name; null
   * for what was drawn over by that of the next mark before it could be shown.
   */
  onDisplay(name: Mark): (number | null)[] {
    const draws = this.events
      .filter((event) => event.name === name)
      .map(({ pid, ts }) => {
        // The frame that is being made now, or the next that is made at all.
        const frame = this.frames.find((one) => one.pid === pid && ts <= one.end);
        return frame && this.drawn.get(frame.id);
      });
    return draws.map((draw, place) => {
      if (draw === undefined) return null;
      const next = draws[place + 1] ?? Infinity;
      const swap = this.swaps.find((one) => one > draw);
      return swap !== undefined && swap < next ? swap / 1000 : null;
    });
  }

  private steps(step: string): TraceEvent[] {
    return this.events.filter((event) => event.args?.main_frame_pipeline?.step === step);
  }
}

function idOf(event: TraceEvent): string {
  return event.args?.main_frame_pipeline?.main_frame_id ?? '';
}
