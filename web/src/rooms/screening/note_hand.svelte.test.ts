import { beforeEach, describe, expect, it } from 'vitest';
import type { Film, FilmChange, FilmNote, Kept } from '$lib/api/wire';
import { NoteHand } from './note_hand.svelte';
import { RunLedger } from './run_ledger.svelte';
import { UNSIGNED } from './side_by_side';
import { WhoWrites } from '$lib/writer/who_writes.svelte';

const note = (id: number, writer: string): FilmNote => ({
  id,
  roll: 'R1',
  frame: id * 10,
  words: `words ${id}`,
  writer,
  made: '2026-11-25T12:00:00Z',
});

/** A desk that keeps what it is asked for, or refuses it. */
function aDesk(notes: FilmNote[] = []) {
  const asked: { change: FilmChange; seen: number }[] = [];
  const film = { revision: 7, notes, rolls: [{ roll: 'R1' }, { roll: 'R2' }] } as unknown as Film;
  return {
    film,
    asked,
    refuses: false,
    change(change: FilmChange, seen: number) {
      asked.push({ change, seen });
      return this.refuses ? Promise.reject(new Error('no')) : Promise.resolve({} as Kept);
    },
    load: () => Promise.resolve(film),
  };
}

/** A machine that can be stopped and runs on. */
function aMachine() {
  return {
    frame: { roll: 'R1', frame: 120 } as { roll: string; frame: number } | null,
    runs: false,
    stop() {
      this.runs = false;
    },
    runOn() {
      this.runs = true;
    },
  };
}

beforeEach(() => localStorage.clear());

describe('writing notes', () => {
  it('is signed by whoever was asked once, and the film runs on behind it', async () => {
    const [desk, machine] = [aDesk(), aMachine()];
    const hand = new NoteHand(desk, machine, new WhoWrites());
    machine.runs = true;
    hand.begin();
    expect([machine.runs, hand.writing, hand.who.asked]).toEqual([false, true, false]);
    hand.words = '  too long ';
    hand.who.name = 'Ida';
    expect(await hand.keep()).toBe(true);
    expect(desk.asked).toEqual([
      {
        change: {
          film_change: 'write_note',
          roll: 'R1',
          frame: 120,
          words: 'too long',
          writer: 'Ida',
        },
        seen: 7,
      },
    ]);
    expect([machine.runs, hand.writing, hand.words]).toEqual([true, false, '']);
    expect(new WhoWrites().name).toBe('Ida');
  });

  it('keeps what was typed where it is refused, and where there is no frame', async () => {
    const [desk, machine] = [aDesk(), aMachine()];
    const hand = new NoteHand(desk, machine, new WhoWrites());
    hand.begin();
    hand.words = 'soft';
    desk.refuses = true;
    expect(await hand.keep()).toBe(false);
    expect([hand.words, hand.writing, hand.problem === null]).toEqual(['soft', true, false]);
    machine.frame = null;
    desk.refuses = false;
    expect(await hand.keep()).toBe(false);
    expect(desk.asked).toHaveLength(1);
  });

  it('rewrites one’s own words and leaves another’s alone', async () => {
    const notes = [note(1, 'Ida'), note(2, 'Mara'), note(3, '')];
    const desk = aDesk(notes);
    const hand = new NoteHand(desk, aMachine(), new WhoWrites());
    hand.who.sign('Ida');
    expect(notes.map((one) => hand.who.wrote(one))).toEqual([true, false, true]);
    hand.beginAgain(notes[0]!);
    expect(hand.again).toBe('words 1');
    // Nothing changed is nothing asked.
    expect(await hand.keepAgain(notes[0]!)).toBe(true);
    expect(desk.asked).toEqual([]);
    hand.beginAgain(notes[0]!);
    hand.again = 'better so';
    expect(await hand.keepAgain(notes[0]!)).toBe(true);
    expect(desk.asked[0]?.change).toMatchObject({ id: 1, words: 'better so', writer: 'Ida' });
    expect(hand.rewriting).toBeNull();
  });

  it('shows whose notes are asked for, and one’s own again when one writes', async () => {
    const hand = new NoteHand(
      aDesk([note(1, 'Ida'), note(2, 'Mara'), note(3, '')]),
      aMachine(),
      new WhoWrites(),
    );
    hand.who.sign('Ida');
    const shown = () => hand.shown.map((one) => one.id);
    expect(shown()).toEqual([1, 2, 3]);
    hand.show('Ida', false);
    hand.show(UNSIGNED, false);
    expect(shown()).toEqual([2]);
    hand.begin();
    hand.words = 'here';
    await hand.keep();
    expect(shown()).toEqual([1, 2]);
  });
});

describe('the ledger of runs', () => {
  it('asks for today and whoever writes, and keeps what was typed where it is refused', async () => {
    const desk = aDesk();
    const ledger = new RunLedger(desk);
    ledger.begin('', 'Ida');
    expect([ledger.roll, ledger.by]).toEqual(['R1', 'Ida']);
    expect(ledger.on).toMatch(/^\d{4}-\d{2}-\d{2}$/);
    ledger.begin('R2', 'Ida');
    ledger.on = ' 2026-03-03 ';
    ledger.through = 'viewer';
    ledger.note = 'jumped';
    desk.refuses = true;
    expect(await ledger.keep()).toBe(false);
    expect([ledger.note, ledger.problem === null]).toEqual(['jumped', false]);
    desk.refuses = false;
    expect(await ledger.keep()).toBe(true);
    expect(desk.asked.at(-1)?.change).toEqual({
      film_change: 'handle_roll',
      roll: 'R2',
      kind: 'run',
      on: '2026-03-03',
      through: 'viewer',
      times: 1,
      by: 'Ida',
      note: 'jumped',
    });
    expect([ledger.note, ledger.problem]).toEqual(['', null]);
    // Only a run goes through a machine, and half a time is none.
    ledger.kind = 'cut';
    ledger.times = '12';
    await ledger.keep();
    expect(desk.asked.at(-1)?.change).toMatchObject({ kind: 'cut', through: '', times: 12 });
    const asked = desk.asked.length;
    ledger.times = 'a few';
    expect(await ledger.keep()).toBe(false);
    expect([desk.asked.length, ledger.problem?.message]).toEqual([
      asked,
      '“a few” is no number of times',
    ]);
    await ledger.strike('R2', 4);
    expect(desk.asked.at(-1)?.change).toEqual({ film_change: 'strike_run', roll: 'R2', number: 4 });
  });
});
