import { describe, expect, it } from 'vitest';
import { Refused } from '$lib/api/server';
import { CALCULATORS } from './calculators';
import { CameraCard, clockOf, dayOf, figureOf, Typing } from './camera_card.svelte';
import type { CameraAnswer } from './camera_desk';
import { PretendCamera } from './pretend_camera';

const FILM = { gauge: 'super8', speed: '18', framesPerFoot: 72, rolls: ['R1', 'R2'] };

function made() {
  const desk = new PretendCamera();
  return { desk, card: new CameraCard(desk, FILM, { date: '2026-06-21', clock: '+2' }) };
}

function typed(card: CameraCard, name: string, value: string) {
  const asked = card.calculator.asks.find((one) => one.name === name);
  if (!asked) throw new Error(`no field ${name}`);
  card.type(asked, value);
}

describe('what is typed', () => {
  it.each([
    ['12.5', 12.5],
    ['12,5', 12.5],
    [' +0.5 ', 0.5],
    ['−1', -1],
    ['.5', 0.5],
    ['3.', 3],
  ])('%s is a figure', (text, value) => expect(figureOf(text)).toBe(value));

  it.each(['', 'wide', '1e3', '1.2.3', '3m', '--1', 'Infinity'])('%s is none', (text) =>
    expect(figureOf(text)).toBeNull(),
  );

  it('knows the day and the clock of the machine', () => {
    expect(dayOf(new Date(2026, 5, 1))).toBe('2026-06-01');
    const before = (minutes: number) => ({ getTimezoneOffset: () => minutes }) as Date;
    expect([-330, -60, 0, 210].map((minutes) => clockOf(before(minutes)))).toEqual([
      '+5:30',
      '+1',
      '+0',
      '-3:30',
    ]);
  });
});

describe('a calculator', () => {
  it('sends what the film has and what is asked in the way chosen', () => {
    const { card } = made();
    expect(card.query()).toEqual({
      gauge: 'super8',
      size: 'medium close',
      lens_mm: 12.5,
      person: '1.7m',
    });
    card.way = 'lens';
    expect(card.query()).toEqual({
      gauge: 'super8',
      size: 'medium close',
      distance: '3m',
      person: '1.7m',
    });
    // A height said stands instead of the view.
    typed(card, 'height', '65cm');
    expect(card.query()).not.toHaveProperty('size');
  });

  it('keeps lens and distance when another is chosen, and nothing else', () => {
    const { card } = made();
    typed(card, 'lens_mm', '25');
    card.chosen = 'depth';
    typed(card, 'stop', '4');
    expect(card.query()).toMatchObject({ lens_mm: 25, stop: 4 });
    card.chosen = 'exposure';
    expect(card.query()).toEqual({ speed: '18', shutter: 150 });
  });

  it('takes up the place and the day that are known', () => {
    const { card } = made();
    card.chosen = 'sun';
    typed(card, 'latitude', '52.5');
    typed(card, 'longitude', '13.4');
    expect(card.query()).toMatchObject({ date: '2026-06-21', clock: '+2', hour: '15:00' });
  });

  it('takes the clock of the day asked for where none is known', () => {
    const { desk } = made();
    const card = new CameraCard(desk, FILM, { date: '2026-01-15', latitude: '1', longitude: '2' });
    card.chosen = 'sun';
    expect(card.query()).toMatchObject({ clock: clockOf(new Date('2026-01-15T12:00')) });
    typed(card, 'date', 'soon');
    expect(card.query()).toBeNull();
    expect(card.waits).toBe(true);
  });

  it('offers the rolls of the film for a wedge', () => {
    const { card } = made();
    card.chosen = 'wedge';
    card.way = 'roll';
    const roll = card.asks.find((one) => one.name === 'roll');
    expect(roll && card.choicesOf(roll)).toEqual(['R1', 'R2']);
    expect(card.query()).toMatchObject({ roll: 'R1', first_take: 1 });
    const without = new CameraCard(new PretendCamera(), { ...FILM, rolls: [] });
    without.chosen = 'wedge';
    expect(without.ways.map((way) => way.value)).toEqual(['typed']);
  });

  it('tells a slip at its field and asks nothing', async () => {
    const { card, desk } = made();
    typed(card, 'lens_mm', 'wide');
    await card.ask();
    expect(card.slip).toBe('lens_mm');
    expect(desk.asked).toEqual([]);
    typed(card, 'lens_mm', '25');
    await card.ask();
    expect(card.slip).toBeNull();
    expect(card.shown?.name).toBe('framing');
  });

  it('waits where something is still to be written', async () => {
    const { card, desk } = made();
    for (const name of ['sun', 'speed', 'wedge'] as const) {
      card.chosen = name;
      await card.ask();
      expect([name, card.waits, card.slip]).toEqual([name, true, null]);
    }
    expect(desk.asked).toEqual([]);
    card.chosen = 'speed';
    typed(card, 'turns', '31.5');
    await card.ask();
    expect(card.waits).toBe(false);
  });

  it('finds what was typed again when the card is laid anew', () => {
    const { desk } = made();
    const typing = new Typing();
    const first = new CameraCard(desk, FILM, {}, typing);
    typed(first, 'lens_mm', '25');
    first.way = 'view';
    const second = new CameraCard(desk, FILM, {}, typing);
    expect(second.way).toBe('view');
    expect(second.query()).toMatchObject({ lens_mm: 25 });
  });

  it('says why there is no answer, and forgets it with the next', async () => {
    const { card, desk } = made();
    desk.refuses = new Refused(
      { code: 'camera.too_near', message: 'too near', hint: 'step back', details: null },
      400,
    );
    await card.ask();
    expect(card.problem).toContain('Step back');
    desk.refuses = null;
    await card.ask();
    expect(card.problem).toBeNull();
  });

  it('of two answers on their way shows the later question’s', async () => {
    const { desk } = made();
    const waits: ((answer: CameraAnswer) => void)[] = [];
    const slow = { answer: () => new Promise<CameraAnswer>((give) => waits.push(give)) };
    const card = new CameraCard(slow, FILM);
    const first = card.ask();
    card.chosen = 'depth';
    const second = card.ask();
    waits[1]?.(await desk.answer('depth', {}));
    waits[0]?.(await desk.answer('framing', {}));
    await Promise.all([first, second]);
    expect(card.answer?.name).toBe('depth');
  });

  it.each(CALCULATORS.map((one) => one.name))(
    '%s comes with plates, sums and a line',
    async (name) => {
      const { desk } = made();
      const written = {
        latitude: '52.5',
        longitude: '13.4',
        date: '2026-06-21',
        clock: '+2',
        bands: '319',
        bands_frames: '1000',
        light: '-3 -2.5 -2 -1.5 -1',
      };
      const card = new CameraCard(desk, FILM, written);
      card.chosen = name;
      await card.ask();
      const opened = card.opened;
      expect(opened?.plates.length).toBeGreaterThan(0);
      expect(opened?.sums.length).toBeGreaterThan(0);
      expect(opened?.text).not.toBe('');
    },
  );
});
