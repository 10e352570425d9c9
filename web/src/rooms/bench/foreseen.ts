// The bench as it will be once the ticks that wait are written down: shown at once,
// so that nobody waits for the program with film in both hands.
import type { BenchAct, BenchDocument, CountOf, OnTheBench, Pin } from './bench_types';
import type { WaitingWrite } from './kept_writes';

function more(count: CountOf, by: number): CountOf {
  return { done: count.done + by, all: count.all };
}

function hung(pins: Pin[], act: BenchAct): Pin[] {
  if (act.act !== 'hang' || !act.pin || !act.span) return pins;
  const { span } = act;
  const hangs = {
    position: act.position ?? null,
    last_position: act.last_position ?? null,
    take: '',
    span,
    frames: span.out - span.in,
  };
  return pins.map((one) => (one.pin === act.pin ? { ...one, hangs } : one));
}

function takenDown(pins: Pin[], act: BenchAct): Pin[] {
  if (act.act !== 'join' || !act.pin) return pins;
  return pins.map((one) => (one.pin === act.pin ? { ...one, hangs: null } : one));
}

function after(bench: OnTheBench, act: BenchAct, line: number, at: string): OnTheBench {
  const pins = takenDown(hung(bench.pins, act), act);
  const taken = pins.filter((one) => one.hangs).length;
  return {
    ...bench,
    acts: bench.acts.slice(1),
    waits: null,
    pins,
    pins_taken: { done: taken, all: bench.pins_taken.all },
    cuts: more(bench.cuts, act.act === 'cut' ? 1 : 0),
    joins: more(bench.joins, act.act === 'join' ? 1 : 0),
    opened: more(bench.opened, act.act === 'unjoin' || act.act === 'open' ? 1 : 0),
    wound: more(bench.wound, Math.abs(act.wind)),
    done_lines: [
      {
        number: line,
        at,
        by: '',
        kind: 'deed',
        words: `${act.title}. ${act.what}`,
        struck_by: null,
        can_be_struck: false,
      },
      ...bench.done_lines,
    ],
  };
}

/** Ticks that speak of another bench than this are left out: the program refuses them. */
export function foreseen(
  kept: BenchDocument,
  waiting: readonly WaitingWrite[],
  now: Date,
): BenchDocument {
  return waiting.reduce((bench, { write }) => {
    const on = bench.on_the_bench;
    const act = on?.acts[0];
    if (write.bench !== 'tick' || write.lines !== bench.lines || !on || !act) return bench;
    const lines = bench.lines + 1;
    return { ...bench, lines, on_the_bench: after(on, act, lines, now.toISOString()) };
  }, kept);
}
