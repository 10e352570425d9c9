import { beforeEach, describe, expect, it, vi } from 'vitest';
import { letterbox, linesOf } from './letterbox';
import { Screen, screenLook, type ScreenLook } from './screen';

describe('the letterbox', () => {
  it('fits the true shape into any room', () => {
    const super8 = { w: 5.79, h: 4.01 };
    expect(letterbox({ w: 1000, h: 1000 }, super8)).toEqual({ x: 0, y: 153, w: 1000, h: 693 });
    expect(letterbox({ w: 1000, h: 401 }, super8)).toEqual({ x: 210, y: 0, w: 579, h: 401 });
    expect(letterbox({ w: 0, h: 10 }, super8)).toEqual({ x: 0, y: 0, w: 0, h: 0 });
    for (let w = 1; w < 400; w += 7) {
      const at = letterbox({ w, h: 300 }, super8);
      expect(at.x + at.w).toBeLessThanOrEqual(w);
      expect(at.y + at.h).toBeLessThanOrEqual(300);
      expect(Math.abs(at.h - (at.w * 4.01) / 5.79)).toBeLessThanOrEqual(1);
    }
  });

  it('breaks words into lines, and never inside a word', () => {
    const letters = (line: string) => line.length;
    expect(linesOf('The Ten-Past Boat', letters, 12)).toEqual(['The Ten-Past', 'Boat']);
    expect(linesOf('Unbreakable', letters, 3)).toEqual(['Unbreakable']);
    expect(linesOf('  ', letters, 3)).toEqual([]);
  });
});

describe('the screen', () => {
  const look: ScreenLook = {
    surround: 'surround',
    black: 'black',
    white: 'white',
    card: 'card',
    ink: 'ink',
    hatch: 'hatch',
    face: 'Bitter',
  };
  let done: string[];
  let canvas: HTMLCanvasElement;

  beforeEach(() => {
    done = [];
    canvas = document.createElement('canvas');
    const on = {
      fillStyle: '',
      drawImage: (_: unknown, ...at: number[]) => done.push(`picture ${at.join()}`),
      fillRect: (...at: number[]) => done.push(`${on.fillStyle} ${at.map(Math.round).join()}`),
      fillText: (words: string) => done.push(`${on.fillStyle}: ${words}`),
      measureText: (words: string) => ({ width: words.length * 20 }),
      stroke: () => done.push('hatched'),
      ...Object.fromEntries(
        ['save', 'restore', 'beginPath', 'rect', 'clip', 'moveTo', 'lineTo'].map((name) => [
          name,
          () => undefined,
        ]),
      ),
    };
    vi.spyOn(canvas, 'getContext').mockReturnValue(on as unknown as RenderingContext);
  });

  it('draws what lies on the film over the picture, where the picture lies', () => {
    const screen = new Screen(canvas, { plain: { w: 4, h: 3 } }, look);
    screen.fit(1000, 600, 1);
    done.length = 0;
    const over = vi.fn(() => done.push('over'));
    screen.show({ kind: 'leader', shade: 'black' }, over);
    expect(done.slice(-2)).toEqual(['black 100,0,800,600', 'over']);
    expect(over).toHaveBeenCalledWith(expect.anything(), { x: 100, y: 0, w: 800, h: 600 }, look);
  });

  it('draws pictures letterboxed, in the dots of the display', () => {
    const screen = new Screen(canvas, { plain: { w: 4, h: 3 } }, look);
    expect(screen.fit(500, 300, 2)).toBe(true);
    expect([canvas.width, canvas.height]).toEqual([1000, 600]);
    expect(screen.fit(500, 300, 2)).toBe(false);
    done.length = 0;
    const scan = document.createElement('canvas');
    [scan.width, scan.height] = [640, 480];
    screen.show({ kind: 'picture', roll: 'R1', frame: 0, picture: scan });
    screen.show({ kind: 'picture', roll: 'R1', frame: 1, picture: scan });
    expect(done).toEqual([
      'surround 0,0,1000,600',
      'picture 100,0,800,600',
      'picture 100,0,800,600',
    ]);
    // Another shape sweeps the screen first, so that no edge of the last is left.
    done.length = 0;
    scan.width = 480;
    screen.show({ kind: 'picture', roll: 'R2', frame: 0, picture: scan });
    expect(done).toEqual(['surround 0,0,1000,600', 'picture 200,0,600,600']);
    screen.dress({ plain: { w: 4, h: 3 }, pixel: 4 / 3 }, look);
    screen.show({ kind: 'picture', roll: 'R2', frame: 0, picture: scan });
    expect(done.at(-1)).toBe('picture 100,0,800,600');
    expect(screen.picture).toEqual({ x: 100, y: 0, w: 800, h: 600 });
  });

  it('draws leader plain, a card in its words, a missing frame hatched with its name', () => {
    const screen = new Screen(canvas, { plain: { w: 4, h: 3 } }, look);
    screen.fit(400, 300, 1);
    screen.show({ kind: 'leader', shade: 'black' });
    done.length = 0;
    screen.show({ kind: 'leader', shade: 'black' });
    screen.show({ kind: 'leader', shade: 'white' });
    expect(done).toEqual(['black 0,0,400,300', 'white 0,0,400,300']);
    done.length = 0;
    screen.show({ kind: 'card', title: 'The Ten-Past Boat', frame: 0 });
    expect(done).toEqual(['card 0,0,400,300', 'ink: The Ten-Past', 'ink: Boat']);
    done.length = 0;
    screen.show({ kind: 'none', roll: 'R1', frame: 7 });
    expect(done).toContain('hatched');
    expect(done.filter((each) => each.startsWith('ink')).join(' ')).toContain('R1·7.');
    screen.show({ kind: 'spoilt', roll: 'R1', frame: 8 });
    expect(done.at(-1)).toContain('read.');
  });

  it('takes its look from the tokens', () => {
    const page = document.createElement('div');
    for (const [name, value] of [
      ['--film', 'f'],
      ['--glass', 'g'],
      ['--card', 'c'],
      ['--ink', 'i'],
      ['--ink2', 'h'],
    ] as const) {
      page.style.setProperty(name, value);
    }
    expect(screenLook(page)).toMatchObject({
      surround: 'f',
      black: 'f',
      white: 'g',
      card: 'c',
      ink: 'i',
      hatch: 'h',
    });
  });
});
