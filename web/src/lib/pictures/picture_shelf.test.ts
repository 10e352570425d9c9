// @vitest-environment node
import { beforeEach, describe, expect, it } from 'vitest';
import { pictureLoader, PictureRefused } from './picture_loader';
import { type Came, PictureShelf, type ShelfSettings } from './picture_shelf';

interface Asked {
  readonly url: string;
  readonly signal: AbortSignal;
  readonly give: (picture: string | null) => Promise<void>;
  readonly fail: () => Promise<void>;
}

let asked: Asked[];
let freed: string[];

const settle = () => new Promise((done) => setImmediate(done));
const open = () => asked.filter(({ signal }) => !signal.aborted).map(({ url }) => url);

function shelfOf(settings: Partial<ShelfSettings> = {}): PictureShelf<string> {
  const load = (url: string, signal: AbortSignal) =>
    new Promise<string | null>((give, fail) => {
      asked.push({
        url,
        signal,
        give: (picture) => (give(picture), settle().then(() => undefined)),
        fail: () => (fail(new Error('not connected')), settle().then(() => undefined)),
      });
    });
  return new PictureShelf({ load, free: (picture) => void freed.push(picture) }, settings);
}

/** Answers everything that is asked, until nothing is. */
async function answerAll(): Promise<void> {
  for (let at = 0; at < asked.length; at += 1) await asked[at]?.give(`picture ${asked[at]?.url}`);
}

function listener(): {
  readonly came: Came<string>[];
  readonly onCome: (came: Came<string>) => void;
} {
  const came: Came<string>[] = [];
  return { came, onCome: (each) => void came.push(each) };
}
const deaf = () => undefined;

beforeEach(() => {
  asked = [];
  freed = [];
});

describe('asking', () => {
  it('at most four at a time, in order, and each only once', async () => {
    const shelf = shelfOf();
    const heard = listener();
    for (const url of ['1', '2', '3', '4', '5', '6', '1']) shelf.ask(url, 'seen', heard.onCome);
    expect(open()).toEqual(['1', '2', '3', '4']);
    await asked[2]?.give('three');
    expect(open()).toEqual(['1', '2', '3', '4', '5']);
    await answerAll();
    expect(open()).toEqual(['1', '2', '3', '4', '5', '6']);
    // Both who asked for 1 are told.
    expect(heard.came).toHaveLength(7);
    expect(heard.came[0]).toEqual({ kind: 'picture', picture: 'three' });
  });

  it('what is seen comes before what is near, and that before the rest', async () => {
    const shelf = shelfOf({ requests: 1 });
    shelf.ask('first', 'far', deaf);
    shelf.ask('far', 'far', deaf);
    shelf.ask('near', 'near', deaf);
    shelf.ask('seen', 'seen', deaf);
    const moved = shelf.ask('moved', 'far', deaf);
    moved.move('seen');
    await answerAll();
    expect(open()).toEqual(['first', 'seen', 'moved', 'near', 'far']);
  });

  it('a picture is as near as the nearest who shows it', async () => {
    const shelf = shelfOf({ requests: 1 });
    for (const url of ['first', 'a', 'b']) shelf.ask(url, 'far', deaf);
    shelf.ask('b', 'seen', deaf);
    await answerAll();
    expect(open()).toEqual(['first', 'b', 'a']);
  });

  it('what lies on the shelf is there at once', async () => {
    const shelf = shelfOf();
    shelf.ask('1', 'seen', deaf);
    await answerAll();
    const heard = listener();
    shelf.ask('1', 'seen', heard.onCome);
    expect(heard.came).toEqual([{ kind: 'picture', picture: 'picture 1' }]);
    expect(shelf.peek('1')).toEqual(heard.came[0]);
    expect([shelf.peek('2'), asked.length]).toEqual([null, 1]);
  });

  it('that no scan shows it is remembered too', async () => {
    const shelf = shelfOf();
    shelf.ask('1', 'seen', deaf).giveBack();
    shelf.ask('1', 'seen', deaf);
    await asked[1]?.give(null);
    const heard = listener();
    shelf.ask('1', 'seen', heard.onCome);
    expect([heard.came, asked.length]).toEqual([[{ kind: 'none' }], 2]);
  });
});

describe('what nobody wants any more', () => {
  it('is called off, and makes way for the next', async () => {
    const shelf = shelfOf({ requests: 2 });
    const heard = listener();
    const loans = ['1', '2', '3', '4'].map((url) => shelf.ask(url, 'seen', heard.onCome));
    loans[0]?.giveBack();
    expect(asked[0]?.signal.aborted).toBe(true);
    expect(open()).toEqual(['2', '3']);
    // One that still waits is never asked for.
    loans[3]?.giveBack();
    await answerAll();
    expect(open()).toEqual(['2', '3']);
    expect(heard.came).toHaveLength(2);
    // The answer that came all the same is freed.
    expect(freed).toEqual(['picture 1']);
  });

  it('goes on while another still shows it', () => {
    const shelf = shelfOf();
    const one = shelf.ask('1', 'seen', deaf);
    shelf.ask('1', 'near', deaf);
    one.giveBack();
    one.giveBack();
    expect(open()).toEqual(['1']);
  });
});

describe('room', () => {
  it('is made by what was used longest ago and is not shown', async () => {
    const shelf = shelfOf({ room: 3 });
    const shown = shelf.ask('1', 'seen', deaf);
    for (const url of ['2', '3']) {
      shelf.ask(url, 'seen', deaf);
    }
    await answerAll();
    for (const url of ['2', '3']) shelf.ask(url, 'seen', deaf).giveBack();
    expect(freed).toEqual([]);
    const four = shelf.ask('4', 'seen', deaf);
    await answerAll();
    // All four are on loan: 2 and 3 were asked for twice and given back once.
    expect([freed, shelf.size]).toEqual([[], 4]);
    four.giveBack();
    expect([freed, shelf.size]).toEqual([['picture 4'], 3]);
    shown.giveBack();
    expect(shelf.size).toBe(3);
  });

  it('pictures given back stay until the room is needed, the oldest use first', async () => {
    const shelf = shelfOf({ room: 2 });
    for (const url of ['1', '2']) {
      const loan = shelf.ask(url, 'seen', deaf);
      await answerAll();
      loan.giveBack();
    }
    shelf.ask('1', 'seen', deaf).giveBack();
    const loan = shelf.ask('3', 'seen', deaf);
    await answerAll();
    loan.giveBack();
    expect(freed).toEqual(['picture 2']);
    expect(shelf.size).toBe(2);
  });
});

describe('trouble', () => {
  it('is told, holds nothing up, and is tried again when asked to', async () => {
    const shelf = shelfOf({ requests: 1 });
    const heard = listener();
    shelf.ask('1', 'seen', heard.onCome);
    shelf.ask('2', 'seen', deaf);
    await asked[0]?.fail();
    expect(heard.came).toEqual([{ kind: 'failed' }]);
    expect(open()).toEqual(['1', '2']);
    await asked[1]?.give('two');
    expect(asked).toHaveLength(2);
    shelf.askAgain();
    await asked[2]?.give('one');
    expect(heard.came[1]).toEqual({ kind: 'picture', picture: 'one' });
  });

  it('who asks after a failure starts a new try', async () => {
    const shelf = shelfOf();
    shelf.ask('1', 'seen', deaf);
    await asked[0]?.fail();
    shelf.ask('1', 'seen', deaf);
    expect(asked).toHaveLength(2);
  });

  it('pictures that are not true any more are fetched anew, and freed when the new have come', async () => {
    const shelf = shelfOf();
    const heard = listener();
    shelf.ask('/R1/1', 'seen', heard.onCome);
    shelf.ask('/R1/2', 'seen', deaf);
    shelf.ask('/R2/1', 'seen', deaf);
    await answerAll();
    shelf.ask('/R1/2', 'seen', deaf);
    shelf.forget('/R1/');
    expect(open().slice(3)).toEqual(['/R1/1', '/R1/2']);
    expect(freed).toEqual([]);
    await asked[3]?.give('new');
    expect(freed).toEqual(['picture /R1/1']);
    expect(heard.came.at(-1)).toEqual({ kind: 'picture', picture: 'new' });
  });
});

describe('the loader', () => {
  const signal = new AbortController().signal;
  const load = (answer: Response) =>
    pictureLoader(
      () => Promise.resolve(answer),
      async (jpeg) => ({ width: jpeg.size, height: 1, close: deaf }),
    )('/small/1', signal);

  it('decodes a picture, knows that there is none, and says what was refused', async () => {
    expect(await load(new Response('jpeg'))).toMatchObject({ width: 4 });
    expect(await load(new Response(null, { status: 204 }))).toBeNull();
    await expect(load(new Response('no', { status: 404 }))).rejects.toThrow(PictureRefused);
    await expect(load(new Response('no', { status: 500 }))).rejects.toMatchObject({ status: 500 });
  });
});
