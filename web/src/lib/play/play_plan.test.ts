// @vitest-environment node
import { describe, expect, it } from 'vitest';
import { about, Course } from './course';
import { acrossJoin, acrossJoinWithHandles, PlayPlan, type Segment } from './play_plan';

const shot = (roll: string, first: number, thrown: number): Segment => ({
  kind: 'shot',
  roll,
  first,
  thrown,
});
const FILM = [
  shot('R3', 3075, 3255),
  { kind: 'leader', frames: 10 } as const,
  shot('R2', 547, 607),
  { kind: 'card', frames: 36, title: 'The Ten-Past Boat' } as const,
  shot('R1', 2996, 3122),
];

/** What a plan shows at each running frame, found by walking instead of by halving. */
function walked(segments: readonly Segment[]): string[] {
  return segments.flatMap((segment) =>
    segment.kind === 'shot'
      ? Array.from(
          { length: segment.thrown - segment.first },
          (_, off) => `${segment.roll}·${segment.first + off}`,
        )
      : Array.from({ length: segment.frames }, () => segment.kind),
  );
}

function shown(plan: PlayPlan): string[] {
  return Array.from({ length: plan.length }, (_, running) => {
    const showing = plan.showing(running);
    return showing.kind === 'picture' ? `${showing.roll}·${showing.frame}` : showing.kind;
  });
}

describe('what runs', () => {
  it('shows at each running frame what a walk through it would', () => {
    const plan = new PlayPlan(FILM);
    expect(plan.length).toBe(180 + 10 + 60 + 36 + 126);
    expect(shown(plan)).toEqual(walked(FILM));
    expect(plan.showing(250)).toEqual({ kind: 'card', title: 'The Ten-Past Boat', frame: 0 });
    expect(plan.showing(185)).toEqual({ kind: 'leader', shade: 'black' });
  });

  it('knows where segments begin, and refuses what lies outside', () => {
    const plan = new PlayPlan(FILM);
    expect([0, 1, 2, 3, 4, 5].map((at) => plan.startOf(at))).toEqual([0, 180, 190, 250, 286, 412]);
    expect([0, 179, 180, 189, 190, 411].map((at) => plan.segmentAt(at))).toEqual([
      0, 0, 1, 1, 2, 4,
    ]);
    for (const outside of [-1, 412, 0.5]) expect(() => plan.showing(outside)).toThrow(RangeError);
    expect(() => new PlayPlan([]).showing(0)).toThrow(RangeError);
  });

  it('finds the running frame of a frame of a roll', () => {
    const plan = new PlayPlan(FILM);
    expect(plan.runningFrameOf('R2', 547)).toBe(190);
    expect(plan.runningFrameOf('R1', 3121)).toBe(411);
    expect(plan.runningFrameOf('R2', 607)).toBeNull();
  });

  it('leaves out what has no frame', () => {
    const plan = new PlayPlan([{ kind: 'leader', frames: 0 }, shot('R1', 5, 6)]);
    expect(shown(plan)).toEqual(['R1·5']);
  });

  it('a part is the same frames', () => {
    const whole = walked(FILM);
    const plan = new PlayPlan(FILM);
    for (const [from, upTo] of [
      [0, 412],
      [170, 200],
      [185, 186],
      [249, 300],
      [400, 500],
    ] as const) {
      expect(shown(plan.part(from, upTo)), `${from} to ${upTo}`).toEqual(whole.slice(from, upTo));
    }
  });
});

describe('across the join', () => {
  it('is the film as it runs, so many frames on either side', () => {
    const film = new PlayPlan([shot('R2', 547, 607), shot('R1', 2996, 3122)]);
    const { plan, joinAt } = acrossJoin(film, 0, 3);
    expect(shown(plan)).toEqual(['R2·604', 'R2·605', 'R2·606', 'R1·2996', 'R1·2997', 'R1·2998']);
    expect(joinAt).toBe(3);
  });

  it('runs on into the pieces beyond a short one, and stops at the ends of the film', () => {
    const film = new PlayPlan([shot('R1', 0, 2), shot('R2', 10, 11), shot('R3', 20, 30)]);
    const { plan, joinAt } = acrossJoin(film, 1, 5);
    expect(shown(plan)).toEqual([
      'R1·0',
      'R1·1',
      'R2·10',
      'R3·20',
      'R3·21',
      'R3·22',
      'R3·23',
      'R3·24',
    ]);
    expect(joinAt).toBe(3);
  });

  it('with handles runs past the cut on both sides, within the roll', () => {
    const rollFrames = () => 3600;
    const [out, into] = [shot('R2', 547, 607), shot('R1', 2996, 3122)];
    const { plan, joinAt } = acrossJoinWithHandles(out, into, 2, 1, rollFrames);
    expect(shown(plan)).toEqual(['R2·605', 'R2·606', 'R2·607', 'R1·2995', 'R1·2996', 'R1·2997']);
    expect(joinAt).toBe(3);
    const tight = acrossJoinWithHandles(shot('R2', 3590, 3600), shot('R1', 0, 9), 2, 5, rollFrames);
    expect(shown(tight.plan)).toEqual(['R2·3598', 'R2·3599', 'R1·0', 'R1·1']);
  });

  it('a card has no handles', () => {
    const card = { kind: 'card', frames: 36, title: 'End' } as const;
    const { plan } = acrossJoinWithHandles(shot('R2', 0, 9), card, 3, 0, () => 3600);
    expect(shown(plan)).toEqual(['R2·6', 'R2·7', 'R2·8', 'card', 'card', 'card']);
  });
});

describe('the course through the gate', () => {
  const places = (course: Course, steps: number) =>
    Array.from({ length: steps }, (_, step) => course.at(step));

  it('goes to the end and no further', () => {
    expect(places(new Course(5, 2, 1, null), 5)).toEqual([2, 3, 4, null, null]);
    expect(places(new Course(5, 2, -1, null), 5)).toEqual([2, 1, 0, null, null]);
    expect(new Course(0, 0, 1, null).at(0)).toBeNull();
  });

  it('goes round and round either way', () => {
    const round = { first: 3, thrown: 6 };
    expect(places(new Course(9, 4, 1, round), 6)).toEqual([4, 5, 3, 4, 5, 3]);
    expect(places(new Course(9, 4, -1, round), 6)).toEqual([4, 3, 5, 4, 3, 5]);
    expect(new Course(9, 8, 1, round).at(0)).toBe(3);
    expect(new Course(9, 0, -1, round).at(0)).toBe(5);
    expect(new Course(9, 4, 1, round).at(1_000_001)).toBe(3 + ((1 + 1_000_001) % 3));
  });

  it('about a frame at rest, the nearest come first', () => {
    expect(about(5, 100, 3, 2)).toEqual([5, 6, 4, 7, 3, 8]);
    expect(about(0, 3, 4, 4)).toEqual([0, 1, 2]);
    expect(about(0, 0, 4, 4)).toEqual([]);
  });
});
