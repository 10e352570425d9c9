// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { PlayPlan, type Segment } from './play_plan';
import { PretendHouse } from './pretend';
import { countsText, ProjectorView } from './projector_view.svelte';

const shot = (roll: string, first: number, thrown: number): Segment => ({
  kind: 'shot',
  roll,
  first,
  thrown,
});
const roll = (frames: number) => new PlayPlan([shot('R1', 0, frames)]);
const range = (first: number, thrown: number) =>
  Array.from({ length: thrown - first }, (_, off) => first + off);

describe('the levers', () => {
  it('seek during a run goes on from there and shows nothing of before', async () => {
    const house = new PretendHouse(60);
    house.server.delay = () => 30;
    await house.load(roll(2000));
    house.projector.run();
    await house.untilRunning();
    await house.refresh(40);
    house.projector.seek(1500);
    expect(house.projector.machine).toBe('threading');
    const before = house.drawn.length;
    await house.untilRunning();
    await house.refresh(60);
    expect(house.drawn.slice(before).map(({ running }) => running)).toEqual(range(1500, 1519));
    expect(house.projector.counts).toMatchObject({ dropped: 0, doubled: 0 });
  });

  it('steps by one and ten, stops a run, and stays within the film', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(25));
    const steps: number[] = [];
    for (const by of [1, 10, -1, 10, 10, -10, -10, -10]) {
      house.projector.step(by);
      await house.refresh(2);
      steps.push(house.projector.onScreen ?? NaN);
    }
    expect(steps).toEqual([1, 11, 10, 20, 24, 14, 4, 0]);
    house.projector.run();
    await house.untilRunning();
    await house.refresh(20);
    house.projector.step(1);
    expect(house.projector.machine).toBe('stopped');
    expect(house.projector.at).toBe(7);
  });

  it('while the picture is on its way, says that another is on the screen', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(1000));
    house.server.delay = () => 100;
    house.projector.seek(500);
    await house.refresh(2);
    expect([house.projector.at, house.projector.onScreen]).toEqual([500, 0]);
    await house.refresh(10);
    expect([house.projector.at, house.projector.onScreen]).toEqual([500, 500]);
  });

  it('runs backwards to the head', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(100), 40);
    house.projector.run(-1);
    await house.untilRunning();
    await house.untilStopped();
    expect(house.drawn.map(({ running }) => running)).toEqual(range(0, 41).reverse());
    expect(house.projector.counts).toMatchObject({ shown: 41, dropped: 0, doubled: 0 });
  });

  it('goes round and round, and fetches each frame once', async () => {
    const house = new PretendHouse(60);
    await house.load(new PlayPlan([shot('R2', 571, 607), shot('R1', 2996, 3032)]));
    house.projector.goRound({ first: 0, thrown: 72 });
    house.projector.run();
    await house.untilRunning();
    await house.refresh(60 * 4);
    const asked = house.server.asked.length;
    await house.refresh(60 * 12);
    expect(house.server.asked).toHaveLength(asked);
    // 16 s at 18 are 288 frames: four times round.
    const seen = house.drawn.map(({ running }) => running);
    expect(seen.slice(0, 288)).toEqual([0, 1, 2, 3].flatMap(() => range(0, 72)));
    expect(house.projector.counts).toMatchObject({ dropped: 0, doubled: 0 });
    house.projector.goRound(null);
    await house.untilStopped();
    expect(house.projector.at).toBe(71);
  });

  it('at the end stops on the last frame, and starts anew from the head', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(30));
    house.projector.run();
    await house.untilRunning();
    await house.untilStopped();
    expect([house.projector.at, house.projector.onScreen, house.ended]).toEqual([29, 29, 1]);
    house.projector.runOrStop();
    await house.untilRunning();
    expect(house.projector.at).toBe(0);
    house.projector.runOrStop();
    expect(house.projector.machine).toBe('stopped');
  });

  it('with nothing threaded does nothing', async () => {
    const house = new PretendHouse(60);
    house.projector.run();
    await house.refresh(5);
    expect([house.projector.machine, house.drawn.length]).toEqual(['stopped', 0]);
  });
});

describe('what is threaded', () => {
  it('may be leader, cards, and frames without a picture', async () => {
    const house = new PretendHouse(60);
    house.server.missing.add('R2·5');
    await house.load(
      new PlayPlan([
        { kind: 'leader', frames: 2 },
        shot('R2', 4, 7),
        { kind: 'card', frames: 2, title: 'End' },
      ]),
    );
    house.projector.run();
    await house.untilRunning();
    await house.untilStopped();
    expect(house.drawn.map(({ what }) => what)).toEqual([
      'leader',
      'leader',
      'R2·4',
      'none',
      'R2·6',
      'card',
      'card',
    ]);
  });

  it('shows a card to shoot as its title, frame after frame, and by its name where it cannot', async () => {
    const house = new PretendHouse(60);
    house.titles.set('M', 'title 1 ab');
    house.server.missing.add('title 1 ab·3');
    const film = new PlayPlan([
      { kind: 'card', frames: 5, title: 'M' },
      { kind: 'card', frames: 1, title: 'E' },
    ]);
    await house.load(film.part(2, 6));
    house.projector.run();
    await house.untilRunning();
    await house.untilStopped();
    expect(house.drawn.map(({ what }) => what)).toEqual([
      'title 1 ab·2',
      'card',
      'title 1 ab·4',
      'card',
    ]);
  });

  it('may be changed during a run, which goes on', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(100));
    house.projector.run();
    await house.untilRunning();
    await house.refresh(30);
    house.projector.load(new PlayPlan([shot('R3', 500, 600)]), 10);
    await house.untilRunning();
    await house.refresh(1);
    expect(house.drawn.at(-1)?.what).toBe('R3·510');
  });

  it('holds few pictures, and frees them all in the end', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(600));
    house.projector.run();
    await house.untilRunning();
    let most = 0;
    while (house.projector.machine === 'running') {
      await house.refresh(10);
      most = Math.max(most, house.made.filter((each) => !each.closed).length);
    }
    expect(most).toBeLessThanOrEqual(33);
    house.projector.close();
    expect(house.made.every((each) => each.closed)).toBe(true);
  });

  it('is drawn once more for a canvas that was emptied', async () => {
    const house = new PretendHouse(60);
    await house.load(roll(100), 7);
    house.projector.redraw();
    expect(house.drawn.map(({ what }) => what)).toEqual(['R1·7', 'R1·7']);
    // Also while another picture is on its way: the one that was seen stays seen.
    house.server.delay = () => 1000;
    house.projector.seek(80);
    await house.refresh(2);
    house.projector.redraw();
    expect(house.drawn.map(({ what }) => what)).toEqual(['R1·7', 'R1·7', 'R1·7']);
    expect([house.projector.at, house.projector.onScreen]).toEqual([80, 7]);
  });
});

describe('the figures for a screen', () => {
  it('are those of the projector, in words', async () => {
    const house = new PretendHouse(60);
    const view = new ProjectorView();
    await house.load(roll(50), 3);
    view.refresh(house.projector);
    expect([view.at, view.onScreen, view.machine, view.length, view.word]).toEqual([
      3,
      3,
      'stopped',
      50,
      'Stopped.',
    ]);
    const counts = { shown: 178, dropped: 2, doubled: 1, halted: 1, misses: [] };
    expect(countsText(counts)).toBe('178 shown, 2 dropped, 1 held too long, halted once');
    expect(countsText({ ...counts, dropped: 0, doubled: 0, halted: 0 })).toBe(
      '178 shown, 0 dropped',
    );
  });
});
