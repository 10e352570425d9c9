import { describe, expect, it } from 'vitest';
import { BenchRoom } from './bench_room.svelte';
import { ACTS, act, boatBench } from './boat_bench';
import type { BenchAct } from './bench_types';
import { HappenedForm } from './happened_form.svelte';
import { waysAt } from './happened_ways';
import { PretendBenchDesk } from './pretend_bench_desk';

const NOWHERE = { getItem: () => null, setItem: () => {}, removeItem: () => {} };

async function formAt(next: BenchAct) {
  const desk = new PretendBenchDesk(boatBench({ acts: [next] }));
  const room = new BenchRoom(desk, undefined, NOWHERE);
  await room.load();
  const later: (() => void)[] = [];
  const form = new HappenedForm(room, (_, run) => void later.push(run));
  form.begin();
  const ask = async () => {
    later.splice(0).forEach((run) => run());
    for (let turn = 0; turn < 6; turn++) await Promise.resolve();
  };
  return { desk, room, form, ask };
}

describe('something else happened', () => {
  it('a cut one frame late, and nothing is written before its meaning was shown', async () => {
    const { desk, form, ask } = await formAt(ACTS.cut);
    form.choose('cut');
    expect(form.happened).toBeNull();
    form.late = 1;
    form.changed();
    expect(form.happened).toEqual({ happened: 'cut', roll: 'R2', before: 548 });
    expect(form.canWrite).toBe(false);
    expect(await form.keep()).toBe(false);
    await ask();
    expect(form.meaning?.frames_after).toBe(2723);
    expect(await form.keep()).toBe(true);
    expect(desk.written.map((one) => one.write)).toEqual([
      { bench: 'happened', lines: 47, happened: [{ happened: 'cut', roll: 'R2', before: 548 }] },
    ]);
  });

  it('another choice asks its meaning anew; an answer that comes late is left', async () => {
    const { desk, form, ask } = await formAt(ACTS.cut);
    form.choose('cut');
    form.late = 1;
    form.changed();
    form.late = 2;
    form.changed();
    await ask();
    expect(desk.asked).toEqual([[{ happened: 'cut', roll: 'R2', before: 549 }]]);
  });

  it('frames torn: the last of them is the last torn', async () => {
    const { form } = await formAt(ACTS.cut);
    form.choose('torn');
    expect(form.happened).toEqual({ happened: 'torn', roll: 'R2', in: 547, out: 548 });
    form.last = 549;
    expect(form.happened).toEqual({ happened: 'torn', roll: 'R2', in: 547, out: 550 });
    form.last = 500;
    expect(form.happened).toBeNull();
  });

  it('what cannot have happened is said, and cannot be written', async () => {
    const { form, ask } = await formAt(ACTS.cut);
    form.choose('torn');
    form.last = 3601;
    form.changed();
    await ask();
    expect(form.cannot?.message).toContain('beyond the end');
    expect(form.canWrite).toBe(false);
  });

  it('a join inside a hanging length came open: only where there is one, and named', async () => {
    const { desk, form, ask } = await formAt(ACTS.hang);
    expect(form.bench && waysAt(form.act, form.bench)).not.toContain('unjoined');
    const inner = (join: number, words: string) => ({
      place: 'pin 3',
      roll: 'R1',
      frame: 1200,
      join,
      words,
      kind: 'tape',
    });
    const inner_joins = [inner(1, 'R1·1289 | R2·100'), inner(2, 'R2·171 | R1·400')];
    desk.bench = { ...boatBench({ acts: [ACTS.hang], inner_joins }), revision: 99 };
    await form.room.load();
    form.begin();
    expect(form.bench && waysAt(form.act, form.bench)).toContain('unjoined');
    form.choose('unjoined');
    expect(form.happened).toBeNull();
    form.inner = 1;
    form.changed();
    expect(form.happened).toEqual({ happened: 'unjoined', roll: 'R1', frame: 1200, join: 2 });
    expect(form.canWrite).toBe(false);
    await ask();
    expect(await form.keep()).toBe(true);
  });

  it('hung on another pin: only free ones are offered', async () => {
    const { form } = await formAt(ACTS.hang);
    form.choose('pin');
    expect(form.freePins).toEqual([10, 11, 12]);
    expect(form.happened).toBeNull();
    form.pin = 11;
    expect(form.happened).toEqual({ happened: 'hung', roll: 'R1', frame: 2996, pin: 11 });
  });

  it('a join otherwise: turned over, end for end, or with something else', async () => {
    const { form } = await formAt(ACTS.join);
    form.choose('turned_over');
    const made = { happened: 'joined', roll: 'R2', frame: 547, position: null };
    expect(form.happened).toEqual({ ...made, join: 'tape', laid: 'turned_over' });
    form.choose('other_join');
    expect(form.happened).toBeNull();
    form.join = 'cement';
    expect(form.happened).toEqual({ ...made, join: 'cement', laid: 'right' });
  });

  it('leader and cards are joined by their position', async () => {
    const { form } = await formAt(act({ act: 'join', join: 'tape', position: 4 }));
    form.choose('end_for_end');
    expect(form.happened).toMatchObject({ roll: null, frame: null, position: 4 });
  });

  it('a remark needs words and has no meaning', async () => {
    const { form } = await formAt(ACTS.wind);
    form.choose('remark');
    expect(form.canWrite).toBe(false);
    form.words = ' the tape is old ';
    expect(form.write).toEqual({ bench: 'remark', words: 'the tape is old' });
    expect(form.canWrite).toBe(true);
  });

  it('speaks of the bench that was seen: another’s tick meanwhile refuses it', async () => {
    const { desk, room, form, ask } = await formAt(ACTS.cut);
    form.choose('roll');
    await ask();
    desk.tickElsewhere();
    await room.load();
    expect(await form.keep()).toBe(false);
    expect(room.refused?.code).toBe('bench.lines');
  });

  it('offers first what is likeliest, and joins only where there are any', () => {
    const bench = boatBench().on_the_bench;
    if (!bench) throw new Error('it is on the bench');
    expect(waysAt(ACTS.join, bench).slice(0, 3)).toEqual([
      'turned_over',
      'end_for_end',
      'other_join',
    ]);
    expect(waysAt(ACTS.cut, bench)[0]).toBe('cut');
    expect(waysAt(ACTS.cut, bench)).toContain('opened');
    const none = { ...bench, joins: { done: 0, all: 24 } };
    expect(waysAt(ACTS.cut, none)).not.toContain('opened');
  });
});
