import { describe, expect, it } from 'vitest';
import { NotReached, Refused } from '$lib/api/server';
import type { Kept } from '$lib/api/wire';
import { ChangeQueue, newKey, type Sent, type Wish } from './change_queue';

const kept = (revision: number): Kept => ({ revision, already: false, words: 'done' });
const note = (words: string, seen: number): Wish => ({
  kind: 'change',
  seen,
  change: { film_change: 'write_note', roll: 'R1', frame: 1, words, writer: '' },
});

describe('changes on their way', () => {
  it('go one at a time, in order, each knowing the one before', async () => {
    const sent: Sent[] = [];
    let under_way = 0;
    const queue = new ChangeQueue(async (one) => {
      under_way += 1;
      expect(under_way).toBe(1);
      await Promise.resolve();
      sent.push(one);
      under_way -= 1;
      return kept(10 + sent.length);
    });
    await Promise.all([
      queue.ask(note('a', 10)),
      queue.ask(note('b', 10)),
      queue.ask(note('c', 10)),
    ]);
    expect(sent.map((s) => s.revision)).toEqual([10, 11, 12]);
    expect(new Set(sent.map((s) => s.key)).size).toBe(3);
    expect(queue.length).toBe(0);
  });

  it("never hide another window's change behind one of their own", async () => {
    const sent: number[] = [];
    // The other window has made revision 11 in between.
    const led = [10, 12, 13];
    const queue = new ChangeQueue(async (one) => {
      sent.push(one.revision);
      return kept(led[sent.length - 1] ?? 0);
    });
    await queue.ask(note('a', 9));
    await queue.ask(note('b', 11));
    // A card that was filled in at 10: it has seen neither 11 nor, past it, 12.
    await queue.ask(note('c', 10));
    expect(sent).toEqual([9, 11, 10]);
  });

  it('wait when nobody answers and go again under the same key', async () => {
    const keys: string[] = [];
    let there = false;
    const queue = new ChangeQueue((one) => {
      keys.push(one.key);
      return there ? Promise.resolve(kept(2)) : Promise.reject(new NotReached('gone'));
    });
    const asked = queue.ask(note('a', 1));
    await new Promise((r) => setTimeout(r));
    expect(queue.length).toBe(1);
    there = true;
    queue.goOn();
    expect((await asked).revision).toBe(2);
    expect(keys[0]).toBe(keys[1]);
  });

  it('a refusal concerns its own change alone', async () => {
    const stale = new Refused({ code: 'store.stale', message: '', hint: '', details: null }, 409);
    const queue = new ChangeQueue((one) =>
      one.wish.kind === 'undo' ? Promise.reject(stale) : Promise.resolve(kept(5)),
    );
    const refused = queue.ask({ kind: 'undo' });
    const good = queue.ask(note('b', 4));
    await expect(refused).rejects.toBe(stale);
    expect(stale.stale).toBe(true);
    expect((await good).revision).toBe(5);
  });

  it('keys never repeat', () => {
    expect(new Set(Array.from({ length: 500 }, newKey)).size).toBe(500);
  });
});
