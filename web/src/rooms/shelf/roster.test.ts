import { describe, expect, it } from 'vitest';
import { connect } from '$lib/api/server';
import type { Roster, RosterForm, Shelved, ShelfRoster } from '$lib/api/wire';
import { filmMarks } from './film_marks';
import { boundLines, chartOf, provedWords } from './roster_chart';
import { otherProblems, placeProblem, RosterDesk, stepProblem } from './roster.svelte';

const FORM: RosterForm = {
  sessions: 10,
  hours: '2:00',
  things: [{ thing: 'bench', count: 2 }],
  steps: [
    { step: 'view', hours: '0:30', sitting: '', needs: [], after_proof: false },
    { step: 'cut', hours: '1:00', sitting: '', needs: ['bench'], after_proof: true },
  ],
  films: [],
  apart: [],
};

function turn(team: string, from: number, to: number, bench: number[]) {
  return {
    session: 1,
    from,
    to,
    team,
    step: bench.length > 0 ? 'cut' : 'view',
    sitting: 1,
    sittings: 1,
    things: bench.map((number) => ({ thing: 'bench', number })),
    waits_for: bench.length > 0 ? 'scan proved' : '',
  };
}

export const PLAN: Roster = {
  sessions: 2,
  given: 10,
  fits: true,
  best: true,
  proof: 'bound_met',
  lower_bound: {
    at_least: 2,
    together: 2,
    by_thing: [{ thing: 'bench', minutes: 180, sessions: 1 }],
    by_team: [{ team: 'Ada', minutes: 90, sessions: 1 }],
  },
  slot_minutes: 30,
  session_minutes: [120, 120],
  teams: [],
  things: [{ thing: 'bench', count: 2 }],
  turns: [
    turn('Ada', 0, 60, [1, 2]),
    turn('Ben', 0, 30, []),
    turn('Cy', 30, 60, []),
    turn('Dee', 0, 60, []),
  ],
  waiting: [],
  remarks: [],
  strange_columns: [],
};

function answering(answers: (ShelfRoster | { code: string })[]) {
  const asked: { method: string; body: unknown }[] = [];
  const fetcher = (async (request: Request) => {
    const text = await request.text();
    asked.push({ method: request.method, body: text ? JSON.parse(text) : null });
    const next = answers.shift() ?? { code: 'none' };
    const refused = 'code' in next;
    const body = refused ? { ...next, message: 'no', hint: 'look', details: null } : next;
    return new Response(JSON.stringify(body), {
      status: refused ? 409 : 200,
      headers: { 'content-type': 'application/json' },
    });
  }) as typeof fetch;
  return { asked, server: connect(fetcher) };
}

function shelf(revision: number, form: RosterForm): ShelfRoster {
  return { revision, form, films: [], plan: PLAN, problem: null };
}

describe('the class roster', () => {
  it('keeps a change with the revision it was made against, and puts it back', async () => {
    const nine = { ...FORM, sessions: 9 };
    const { asked, server } = answering([shelf(3, FORM), shelf(4, nine), shelf(5, FORM)]);
    const desk = new RosterDesk(server);
    await desk.load();
    await desk.keep();
    expect(asked.length, 'nothing was changed').toBe(1);
    if (desk.form) desk.form.sessions = 9;
    await desk.keep();
    expect(asked[1]?.body).toMatchObject({ revision: 3, form: { sessions: 9 } });
    expect(desk.canPutBack).toBe(true);
    await desk.putBack();
    expect(asked[2]?.body).toMatchObject({ revision: 4, form: { sessions: 10 } });
    expect(desk.form?.sessions).toBe(10);
    expect(desk.canPutBack).toBe(false);
  });

  it('writes over nothing that another window kept', async () => {
    const theirs = { ...FORM, sessions: 6 };
    const { asked, server } = answering([
      shelf(3, FORM),
      { code: 'store.stale' },
      shelf(4, theirs),
    ]);
    const desk = new RosterDesk(server);
    await desk.load();
    if (desk.form) desk.form.sessions = 9;
    await desk.keep();
    expect(asked.map((one) => one.method)).toEqual(['GET', 'PUT', 'GET']);
    expect(desk.form?.sessions).toBe(6);
    expect(desk.problem?.code).toBe('store.stale');
  });

  it('says what is wrong at its place, once for all teams', () => {
    const problems = [
      { place: 'step 1', message: 'cannot read' },
      { place: 'Ada, cut', message: 'is too long' },
      { place: 'Ben, cut', message: 'is too long' },
      { place: 'sessions', message: 'none' },
      { place: '', message: 'there is no team' },
    ];
    expect(stepProblem(problems, FORM, 0)).toBe('cannot read');
    expect(stepProblem(problems, FORM, 1)).toBe('is too long');
    expect(placeProblem(problems, 'sessions')).toBe('none');
    expect(otherProblems(problems, FORM).map((one) => one.message)).toEqual(['there is no team']);
  });

  it('draws a session downward, a column for each thing and lanes for the rest', () => {
    const chart = chartOf(PLAN, 1);
    expect(chart.heads).toEqual(['bench 1', 'bench 2', 'at a table', 'at a table']);
    expect([chart.rows, chart.times]).toEqual([4, ['0:00', '0:30', '1:00', '1:30']]);
    const at = chart.bars.map((bar) => [bar.turn.team, bar.columns, bar.from, bar.to]);
    expect(at).toEqual([
      ['Ada', [{ from: 0, to: 2 }], 0, 2],
      ['Ben', [{ from: 2, to: 3 }], 0, 1],
      ['Cy', [{ from: 2, to: 3 }], 1, 2],
      ['Dee', [{ from: 3, to: 4 }], 0, 2],
    ]);
    expect(chart.bars[0]?.spoken).toBe(
      '0:00 to 1:00, Ada: cut, has bench 1 and bench 2, only when: scan proved',
    );
    expect(chartOf(PLAN, 2).bars).toEqual([]);
  });

  it('calls a plan best only where that is proved', () => {
    expect(provedWords(PLAN)).toBe('2 sessions: no plan needs fewer.');
    const open = { ...PLAN, sessions: 3, proof: 'not_proved' };
    expect(provedWords(open)).toBe('3 sessions. Whether 2 would do is not known.');
    expect(boundLines(PLAN)[0]).toEqual({
      sum: 'all of it together, in every stretch',
      comes: '2 sessions',
    });
    const tried = boundLines({ ...PLAN, proof: 'every_way_tried' });
    expect(tried.at(-1)).toEqual({
      sum: 'every way of doing with fewer was tried: at least',
      comes: '2 sessions',
    });
  });
});

describe('what a film is at', () => {
  const film: Shelved = {
    film: 'kite',
    title: 'The Kite',
    gauge: 'Super 8',
    speed: '18',
    rolls: 0,
    proved: 0,
    frames: 0,
    takes: 0,
    scenes: 0,
    setups: 0,
    cuts: 0,
    newest_cut: null,
    face: null,
    changed: null,
    dir: '/shelf/kite',
    problem: null,
  };
  const words = (more: Partial<Shelved>) =>
    filmMarks({ ...film, ...more }).map((mark) => `${mark.count} ${mark.words}`.trim());

  it('says so where there is nothing yet', () => {
    expect(words({})).toEqual(['no script', 'no roll', 'no version']);
    expect(filmMarks(film).every((mark) => mark.none)).toBe(true);
  });

  it('counts what is there, and never calls a part of it proved', () => {
    expect(words({ rolls: 3, proved: 3, takes: 1, setups: 12, cuts: 1, newest_cut: 'v1' })).toEqual(
      ['12 setups planned', '3 rolls', 'proved', '1 take', '1 version, v1'],
    );
    expect(words({ rolls: 3, proved: 2 })).toContain('2 of 3 proved');
    expect(words({ rolls: 3 })).toContain('not proved');
    const part = filmMarks({ ...film, rolls: 3, proved: 2 }).find((mark) => mark.of === 'proof');
    expect(part?.proved).toBe(false);
  });
});
