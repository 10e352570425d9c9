import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import type { Binding, KeyPress } from './binding';
import { capOf, isMeant } from './binding';
import { mayHave, ownerOf } from './key_owner';
import { Keys, type Layer } from './keys.svelte';
import { StepGate } from './step_gate';

let done: string[];
let drawings: Map<number, () => void>;
let keys: Keys;
let stop: () => void;

const does = (words: string, ...names: string[]): Binding => ({
  keys: names,
  words,
  act: (key) => void done.push(`${words} (${key})`),
});
const layer = (kind: Layer['kind'], ...bindings: Binding[]): Layer => ({
  kind,
  heading: `In the ${kind}`,
  bindings: () => bindings,
});

function down(
  key: string,
  how: Partial<KeyboardEventInit> = {},
  on: Element = document.body,
): boolean {
  const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...how });
  on.dispatchEvent(event);
  return event.defaultPrevented;
}

function up(key: string): void {
  document.body.dispatchEvent(new KeyboardEvent('keyup', { key, bubbles: true }));
}

function draw(): void {
  const due = [...drawings.values()];
  drawings.clear();
  due.forEach((act) => act());
}

beforeEach(() => {
  done = [];
  drawings = new Map();
  let asked = 0;
  const gate = new StepGate(
    (act) => {
      drawings.set((asked += 1), act);
      return asked;
    },
    (request) => void drawings.delete(request),
  );
  keys = new Keys(gate);
  stop = keys.listen(window);
});

afterEach(() => {
  stop();
  document.body.replaceChildren();
});

describe('layers', () => {
  it('the room is asked before the shell, a dialogue before both and alone', () => {
    keys.lay(layer('shell', does('shell enters', 'Enter'), does('shell escapes', 'Escape')));
    const leave = keys.lay(layer('room', does('room enters', 'Enter')));
    expect([down('Enter'), down('Escape')]).toEqual([true, true]);
    const close = keys.lay(layer('dialogue', does('dialogue escapes', 'Escape')));
    expect([down('Enter'), down('Escape')]).toEqual([false, true]);
    close();
    expect(down('Enter')).toBe(true);
    leave();
    down('Enter');
    expect(done).toEqual([
      'room enters (Enter)',
      'shell escapes (Escape)',
      'dialogue escapes (Escape)',
      'room enters (Enter)',
      'shell enters (Enter)',
    ]);
  });

  it('a shell laid late still lies under the room, and the later room on top', () => {
    keys.lay(layer('room', does('first', 'Home')));
    const leave = keys.lay(layer('room', does('second', 'Home')));
    keys.lay(layer('shell', does('shell', 'Home')));
    down('Home');
    leave();
    down('Home');
    expect(done).toEqual(['second (Home)', 'first (Home)']);
  });

  it('what has nothing to do now hands the key down, and at last to the browser', () => {
    keys.lay(layer('shell', does('shell', 'Insert')));
    keys.lay(layer('room', { keys: ['Insert', 'Home'], words: 'not now', act: () => false }));
    expect([down('Insert'), down('Home')]).toEqual([true, false]);
    expect(done).toEqual(['shell (Insert)']);
  });

  it('Shift and Ctrl tell bindings apart; Command counts as Ctrl, Alt is not ours', () => {
    keys.lay(
      layer(
        'room',
        does('one on', 'ArrowDown'),
        { ...does('ten on', 'ArrowDown'), with: 'shift' },
        { ...does('undo', 'z'), with: 'ctrl' },
        { ...does('redo', 'z'), with: 'ctrl+shift' },
      ),
    );
    down('ArrowDown');
    down('ArrowDown', { shiftKey: true });
    down('z', { ctrlKey: true });
    down('Z', { ctrlKey: true, shiftKey: true });
    down('z', { metaKey: true });
    expect(down('ArrowDown', { altKey: true })).toBe(false);
    expect(down('z')).toBe(false);
    expect(done).toEqual([
      'one on (ArrowDown)',
      'ten on (ArrowDown)',
      'undo (z)',
      'redo (z)',
      'undo (z)',
    ]);
  });

  it('the space bar is Space, with Shift another', () => {
    keys.lay(layer('room', does('runs', 'Space')));
    expect([down(' '), down(' ', { shiftKey: true })]).toEqual([true, false]);
    expect(done).toEqual(['runs (Space)']);
  });

  it('refuses letters and figures without Ctrl', () => {
    for (const key of ['j', 'K', '1', 'é']) {
      const lift = keys.lay(layer('room', does('marks', key)));
      expect(() => keys.press(press('Enter'), 'page'), key).toThrow('a letter without Ctrl');
      lift();
    }
  });

  it('may speak of what is chosen now', () => {
    let words = 'circle 3-T2';
    keys.lay({ kind: 'room', heading: 'Rolls', bindings: () => [does(words, 'Enter')] });
    down('Enter');
    words = 'circle 3-T1';
    down('Enter');
    expect(done).toEqual(['circle 3-T2 (Enter)', 'circle 3-T1 (Enter)']);
  });
});

const press = (key: string, how: Partial<KeyPress> = {}): KeyPress => ({
  key,
  shiftKey: false,
  ctrlKey: false,
  metaKey: false,
  altKey: false,
  repeat: false,
  isComposing: false,
  ...how,
});

describe('whose key it is', () => {
  const owner = (html: string) => {
    document.body.innerHTML = html;
    return ownerOf(document.querySelector('[data-me]') ?? document.body.firstElementChild);
  };

  it('is told by what has the focus', () => {
    expect(owner('<p>words</p>')).toBe('page');
    expect(ownerOf(null)).toBe('page');
    expect(ownerOf(window)).toBe('page');
    for (const html of [
      '<input>',
      '<input type="number">',
      '<textarea></textarea>',
      '<div contenteditable="true"></div>',
      '<div role="textbox"></div>',
      '<div contenteditable="true"><b data-me>x</b></div>',
    ]) {
      expect(owner(html), html).toBe('field');
    }
    for (const html of [
      '<button>x</button>',
      '<button><span data-me>x</span></button>',
      '<a href="/x">x</a>',
      '<input type="checkbox">',
      '<summary>x</summary>',
      '<div role="switch"></div>',
    ]) {
      expect(owner(html), html).toBe('button');
    }
    for (const html of [
      '<select></select>',
      '<input type="radio">',
      '<div role="slider"></div>',
      '<button role="tab">x</button>',
    ]) {
      expect(owner(html), html).toBe('choice');
    }
    expect(owner('<a>no link</a>')).toBe('page');
    expect(owner('<div data-keys="room"><p data-me></p></div>')).toBe('room');
    expect(owner('<div data-keys="room"><input data-me></div>')).toBe('field');
    expect(owner('<button data-keys="room">x</button>')).toBe('room');
  });

  it('a field keeps all but Esc and Ctrl Enter', () => {
    document.body.innerHTML = '<input>';
    const field = document.querySelector('input') ?? document.body;
    keys.lay(
      layer(
        'room',
        does('steps', 'ArrowDown', 'Enter', 'Home', 'Backspace'),
        does('puts back', 'Escape'),
        { ...does('keeps', 'Enter'), with: 'ctrl' },
        { ...does('undoes', 'z'), with: 'ctrl' },
      ),
    );
    for (const key of ['ArrowDown', 'Enter', 'Home', 'Backspace', '?']) {
      expect(down(key, {}, field), key).toBe(false);
    }
    expect(down('z', { ctrlKey: true }, field)).toBe(false);
    expect([down('Escape', {}, field), down('Enter', { ctrlKey: true }, field)]).toEqual([
      true,
      true,
    ]);
    expect(done).toEqual(['puts back (Escape)', 'keeps (Enter)']);
    expect(keys.sheetOpen).toBe(false);
  });

  it('a button keeps Enter and Space, a choice its arrows and letters', () => {
    expect(
      ['Enter', 'Space', 'ArrowDown', 'Escape', '?'].map((key) => mayHave('button', key, false)),
    ).toEqual([false, false, true, true, true]);
    expect(mayHave('button', 'Enter', true)).toBe(true);
    expect(
      ['ArrowDown', 'Home', 'Space', '?', 'Escape', 'Insert'].map((key) =>
        mayHave('choice', key, false),
      ),
    ).toEqual([false, false, false, false, true, true]);
    expect(mayHave('choice', 'z', true)).toBe(true);
  });

  it('Tab leads through the page, except where it is marked', () => {
    document.body.innerHTML = '<div tabindex="0" data-keys="room"></div><button>x</button>';
    keys.lay(layer('room', does('next join', 'Tab')));
    expect(down('Tab')).toBe(false);
    expect(down('Tab', {}, document.querySelector('button') ?? document.body)).toBe(false);
    expect(down('Tab', {}, document.querySelector('div') ?? document.body)).toBe(true);
    expect(done).toEqual(['next join (Tab)']);
  });

  it('what another has had already, and what is being composed, is left alone', () => {
    document.body.innerHTML = '<p></p>';
    const had = document.querySelector('p') ?? document.body;
    had.addEventListener('keydown', (event) => event.preventDefault());
    keys.lay(layer('room', does('enters', 'Enter')));
    down('Enter', {}, had);
    down('Enter', { isComposing: true });
    expect(done).toEqual([]);
  });
});

describe('keys held down', () => {
  const held = (): Binding => ({ ...does('one on', 'ArrowDown'), held: true });

  it('step once each time the screen is drawn, however fast the keyboard is', () => {
    keys.lay(layer('room', held()));
    down('ArrowDown');
    expect(done).toHaveLength(1);
    for (let each = 0; each < 5; each += 1) expect(down('ArrowDown', { repeat: true })).toBe(true);
    expect(done).toHaveLength(1);
    draw();
    expect(done).toHaveLength(2);
    draw();
    expect(done).toHaveLength(2);
    down('ArrowDown', { repeat: true });
    draw();
    expect(done).toHaveLength(3);
  });

  it('taps are each a step, also several before the screen is drawn', () => {
    keys.lay(layer('room', held()));
    down('ArrowDown');
    up('ArrowDown');
    down('ArrowDown');
    expect(done).toHaveLength(2);
  });

  it('stand when the finger is lifted, the window left, or the room left', () => {
    const leave = keys.lay(layer('room', held()));
    for (const end of [
      () => up('ArrowDown'),
      () => window.dispatchEvent(new Event('blur')),
      leave,
    ]) {
      down('ArrowDown', { repeat: true });
      expect(drawings.size).toBe(1);
      end();
      draw();
    }
    expect(done).toEqual([]);
  });

  it('another key lifted meanwhile changes nothing', () => {
    keys.lay(layer('room', held()));
    down('ArrowDown', { repeat: true });
    up('Shift');
    draw();
    expect(done).toHaveLength(1);
  });

  it('what is not made for it acts once and swallows the rest', () => {
    keys.lay(layer('room', does('runs', 'Space')));
    down(' ');
    expect(down(' ', { repeat: true })).toBe(true);
    draw();
    expect(done).toEqual(['runs (Space)']);
  });
});

describe('what the page says of its keys', () => {
  beforeEach(() => {
    keys.lay(
      layer('shell', { ...does('take the last change back', 'z'), with: 'ctrl', line: false }),
    );
    keys.lay(
      layer(
        'room',
        { ...does('one frame back', 'ArrowUp'), line: 'one frame' },
        { ...does('one frame on', 'ArrowDown'), line: 'one frame' },
        { ...does('ten frames on', 'ArrowDown'), with: 'shift', line: false },
        does('next join', 'Tab'),
        does('keep', 'Enter'),
        { ...does('keep', 'Enter'), with: 'ctrl', line: false },
      ),
    );
  });

  it('the key line has what matters, in order', () => {
    expect(keys.line).toEqual([
      { keys: ['up', 'down'], words: 'one frame' },
      { keys: ['Tab'], words: 'next join' },
      { keys: ['Enter'], words: 'keep' },
    ]);
  });

  it('the sheet has all, room first, no words twice under a heading', () => {
    expect(keys.all).toEqual([
      {
        heading: 'In the room',
        keys: [
          { keys: ['up'], words: 'one frame back' },
          { keys: ['down'], words: 'one frame on' },
          { keys: ['Shift', 'down'], words: 'ten frames on' },
          { keys: ['Tab'], words: 'next join' },
          { keys: ['Enter'], words: 'keep' },
          { keys: ['Ctrl', 'Enter'], words: 'keep, as well' },
        ],
      },
      {
        heading: 'In the shell',
        keys: [
          { keys: ['Ctrl', 'Z'], words: 'take the last change back' },
          { keys: ['?'], words: 'all keys' },
        ],
      },
    ]);
  });

  it('has what works everywhere there only, and what belongs together together', () => {
    keys.lay(
      layer(
        'room',
        { ...does('take it back here', 'z'), with: 'ctrl' },
        { ...does('the roll before, after', 'ArrowLeft'), with: 'ctrl' },
        { ...does('the roll before, after', 'ArrowRight'), with: 'ctrl' },
        { ...does('break here', 'Insert', '/'), under: 'the take' },
      ),
    );
    expect(keys.all[0]).toEqual({
      heading: 'In the room',
      keys: [{ keys: ['Ctrl', 'left', 'right'], words: 'the roll before, after' }],
    });
    expect(keys.all[1]).toEqual({
      heading: 'In the room: the take',
      keys: [{ keys: ['Insert', 'or', '/'], words: 'break here' }],
    });
    const zs = keys.all.flatMap((group) => group.keys).filter((each) => each.keys.includes('Z'));
    expect(zs).toHaveLength(1);
  });

  it('? opens the sheet on any keyboard, ? and Esc close it, and nothing runs under it', () => {
    down('?', { shiftKey: true });
    expect(keys.sheetOpen).toBe(true);
    expect([down('Enter'), down('ArrowDown')]).toEqual([false, false]);
    expect(down('Escape')).toBe(true);
    expect(keys.sheetOpen).toBe(false);
    down('?');
    down('?');
    expect(keys.sheetOpen).toBe(false);
    expect(done).toEqual([]);
  });

  it('caps read as on the keyboard', () => {
    expect(['PageDown', 'z', 'Space', 'Escape', 'ArrowLeft', 'F2'].map(capOf)).toEqual([
      'Page Down',
      'Z',
      'Space',
      'Esc',
      'left',
      'F2',
    ]);
    expect(isMeant(does('', '?'), press('?', { shiftKey: true }))).toBe(true);
  });
});
