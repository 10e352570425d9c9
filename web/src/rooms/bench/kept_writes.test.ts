import { describe, expect, it } from 'vitest';
import { NotReached, Refused } from '$lib/api/server';
import { KeptWrites, type WaitingWrite } from './kept_writes';

function store() {
  const kept = new Map<string, string>();
  return {
    kept,
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => void kept.set(name, value),
    removeItem: (name: string) => void kept.delete(name),
  };
}

const refusal = () =>
  new Refused({ code: 'bench.lines', message: 'no', hint: '', details: null }, 409);

/** Writes that are sent as told; each answer is given in turn. */
function bench(answers: (() => Promise<void>)[], place = store()) {
  const sent: WaitingWrite[] = [];
  const refused: unknown[] = [];
  const writes = new KeptWrites(
    'boat',
    (one) => {
      sent.push(one);
      return (answers.shift() ?? (() => Promise.resolve()))();
    },
    () => undefined,
    (why) => void refused.push(why),
    place,
  );
  return { writes, sent, refused, place };
}

describe('what waits to be written down', () => {
  it('is sent again under its key when the answer was lost, and then the next', async () => {
    const { writes, sent } = bench([() => Promise.reject(new NotReached('gone'))]);
    const first = writes.ask({ bench: 'tick', lines: 4 });
    const second = writes.ask({ bench: 'tick', lines: 5 });
    await Promise.resolve();
    await Promise.resolve();
    expect(sent.map((one) => one.write)).toEqual([{ bench: 'tick', lines: 4 }]);
    writes.goOn();
    await Promise.all([first, second]);
    expect(sent).toHaveLength(3);
    expect(sent[1]?.key).toBe(sent[0]?.key);
    expect(sent[2]?.key).not.toBe(sent[0]?.key);
    expect(writes.waiting).toEqual([]);
  });

  it('outlives the page: the next one sends it under the same key', async () => {
    const one = bench([() => Promise.reject(new NotReached('gone'))]);
    void one.writes.ask({ bench: 'tick', lines: 4 });
    await Promise.resolve();
    await Promise.resolve();
    const next = bench([], one.place);
    expect(next.writes.waiting).toEqual(one.writes.waiting);
    next.writes.goOn();
    await Promise.resolve();
    await Promise.resolve();
    expect(next.sent.map((each) => each.key)).toEqual([one.sent[0]?.key]);
    expect(one.place.kept.size).toBe(0);
  });

  it('a refusal drops what was ticked after it, and says so to each', async () => {
    const { writes, sent } = bench([() => Promise.reject(refusal())]);
    const both = [writes.ask({ bench: 'tick', lines: 4 }), writes.ask({ bench: 'tick', lines: 5 })];
    const settled = await Promise.allSettled(both);
    expect(settled.map((one) => one.status)).toEqual(['rejected', 'rejected']);
    expect(sent).toHaveLength(1);
    expect(writes.waiting).toEqual([]);
  });

  it('a refusal that nobody waits for any more is told all the same', async () => {
    const one = bench([() => Promise.reject(new NotReached('gone'))]);
    void one.writes.ask({ bench: 'tick', lines: 4 });
    await Promise.resolve();
    await Promise.resolve();
    const next = bench([() => Promise.reject(refusal())], one.place);
    next.writes.goOn();
    await Promise.resolve();
    await Promise.resolve();
    expect(next.refused).toHaveLength(1);
  });

  it('what cannot be read in the browser’s store is nothing', () => {
    const place = store();
    place.setItem('onestrand.bench.boat', '{"half":');
    expect(bench([], place).writes.waiting).toEqual([]);
  });
});
