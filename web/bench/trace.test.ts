import { describe, expect, it } from 'vitest';
import { Trace } from './trace';

const MARK = 'onestrand picture drawn';

/** Numbers of frames as the browser gives them: too long for a number, alike but for the end. */
const frame = (nth: number) => `1276996508901792440${nth}`;

const step = (step: string, nth: number, ts: number, dur = 0) =>
  `{"name":"${step}","pid":1,"ts":${ts},"dur":${dur},"args":{"main_frame_pipeline":` +
  `{"main_frame_id":${frame(nth)},"step":"${step}"}}}`;
const mark = (ts: number, pid = 1) => `{"name":"${MARK}","pid":${pid},"ts":${ts}}`;
const swap = (ts: number, dur: number) =>
  `{"name":"Display::DrawAndSwap","pid":2,"ts":${ts},"dur":${dur}}`;
const traceOf = (...events: string[]) => new Trace(`{"traceEvents":[${events.join()}]}`);

/** A frame of the page from its begin to its end, committed, and drawn by the compositor. */
const whole = (nth: number, begin: number, draw: number) => [
  step('BEGIN_MAIN_FRAME', nth, begin, 1000),
  step('COMMIT_ON_MAIN', nth, begin + 900, 100),
  step('DRAW', nth, draw),
];

describe('what the display has shown', () => {
  it('is swapped after its own frame was drawn', () => {
    const trace = traceOf(
      ...whole(0, 10_000, 12_000),
      mark(10_500),
      swap(11_000, 500),
      swap(12_100, 900),
      ...whole(1, 50_000, 52_000),
      mark(50_500),
      swap(52_100, 400),
    );
    expect(trace.tells).toBe(true);
    expect(trace.marks(MARK)).toEqual([10.5, 50.5]);
    expect(trace.onDisplay(MARK)).toEqual([13, 52.5]);
  });

  it('is not what the next one covered before a swap, nor what no swap followed', () => {
    const trace = traceOf(
      ...whole(0, 10_000, 12_000),
      mark(10_500),
      ...whole(1, 13_000, 15_000),
      mark(13_500),
      swap(15_100, 400),
      ...whole(2, 50_000, 52_000),
      mark(50_500),
    );
    expect(trace.onDisplay(MARK)).toEqual([null, 15.5, null]);
  });

  it('a mark between two frames belongs to the next that is made, of its own page', () => {
    const other = whole(3, 20_000, 21_000).map((event) => event.replace('"pid":1', '"pid":7'));
    const trace = traceOf(
      mark(18_000),
      ...other,
      swap(21_100, 100),
      step('BEGIN_MAIN_FRAME', 4, 23_000, 1000),
      ...whole(5, 30_000, 31_000),
      swap(31_100, 900),
    );
    expect(trace.onDisplay(MARK)).toEqual([32]);
  });

  it('a trace with other names tells nothing', () => {
    expect(traceOf(mark(1)).tells).toBe(false);
  });
});
