// A session of the roster drawn: time runs downward, a column for each single thing, and
// lanes for what needs none.
import type { Roster, Turn } from '$lib/api/wire';
import { hours } from './roster.svelte';

export interface Bar {
  readonly turn: Turn;
  /** Its columns, each with the one behind it; the first carries the words. */
  readonly columns: readonly { readonly from: number; readonly to: number }[];
  /** Its rows, from 0, with the one behind them. */
  readonly from: number;
  readonly to: number;
  readonly spoken: string;
}

export interface SessionChart {
  readonly number: number;
  readonly length: string;
  readonly rows: number;
  /** When each row begins. */
  readonly times: readonly string[];
  /** What stands over each column. */
  readonly heads: readonly string[];
  readonly bars: readonly Bar[];
}

/** Each single thing: `bench`, or `bench 1` where there are several. */
export function columnsOf(roster: Roster): { key: string; head: string }[] {
  return roster.things.flatMap(({ thing, count }) =>
    Array.from({ length: count }, (_, at) => ({
      key: `${thing} ${at + 1}`,
      head: count === 1 ? thing : `${thing} ${at + 1}`,
    })),
  );
}

export function chartOf(roster: Roster, number: number): SessionChart {
  const things = columnsOf(roster);
  const turns = roster.turns.filter((turn) => turn.session === number);
  const lanes: number[] = [];
  const bars = turns.map((turn): Bar => {
    const own = turn.things.map((used) =>
      things.findIndex((column) => column.key === `${used.thing} ${used.number}`),
    );
    const at = own.length > 0 ? own : [things.length + lane(lanes, turn)];
    return {
      turn,
      columns: runs(at),
      from: turn.from / roster.slot_minutes,
      to: turn.to / roster.slot_minutes,
      spoken: spokenTurn(turn),
    };
  });
  const minutes = roster.session_minutes[number - 1] ?? 0;
  const rows = Math.floor(minutes / roster.slot_minutes);
  return {
    number,
    length: hours(minutes),
    rows,
    times: Array.from({ length: rows }, (_, at) => hours(at * roster.slot_minutes)),
    heads: [...things.map((column) => column.head), ...lanes.map(() => 'at a table')],
    bars,
  };
}

/** The first lane that is free by then. */
function lane(until: number[], turn: Turn): number {
  const free = until.findIndex((end) => end <= turn.from);
  const at = free === -1 ? until.length : free;
  until[at] = turn.to;
  return at;
}

/** Columns side by side are one. */
function runs(columns: readonly number[]): { from: number; to: number }[] {
  const all: { from: number; to: number }[] = [];
  for (const column of [...columns].sort((a, b) => a - b)) {
    const last = all.at(-1);
    if (last && last.to === column) last.to = column + 1;
    else all.push({ from: column, to: column + 1 });
  }
  return all;
}

export function spokenTurn(turn: Turn): string {
  const things = turn.things.map((used) => `${used.thing} ${used.number}`);
  const sitting = turn.sittings > 1 ? `, sitting ${turn.sitting} of ${turn.sittings}` : '';
  const has = things.length > 0 ? `, has ${things.join(' and ')}` : '';
  const when = turn.waits_for ? `, only when: ${turn.waits_for}` : '';
  return `${hours(turn.from)} to ${hours(turn.to)}, ${turn.team}: ${turn.step}${sitting}${has}${when}`;
}

/** What is known of the number of sessions, in one sentence. */
export function provedWords(roster: Roster): string {
  const sessions = `${roster.sessions} ${roster.sessions === 1 ? 'session' : 'sessions'}`;
  if (roster.proof === 'bound_met') return `${sessions}: no plan needs fewer.`;
  if (roster.proof === 'every_way_tried') {
    return `${sessions}: no plan needs fewer. Every way of doing with fewer was tried.`;
  }
  return `${sessions}. Whether ${roster.lower_bound.at_least} would do is not known.`;
}

/** The lines of the lower bound, the strongest first. */
export function boundLines(roster: Roster): { sum: string; comes: string }[] {
  const bound = roster.lower_bound;
  const at = (count: number) => `${count} ${count === 1 ? 'session' : 'sessions'}`;
  const lines = [
    ...bound.by_thing.map((one) => ({
      sum: `the ${one.thing}, in use for ${hours(one.minutes)} h`,
      count: one.sessions,
    })),
    ...bound.by_team.map((one) => ({
      sum: `${one.team}, ${hours(one.minutes)} h of work`,
      count: one.sessions,
    })),
    { sum: 'all of it together, in every stretch', count: bound.together },
  ];
  const sorted = [...lines].sort((a, b) => b.count - a.count).slice(0, 7);
  // The last line of a sum is what comes of it.
  const last =
    roster.proof === 'every_way_tried'
      ? 'every way of doing with fewer was tried: at least'
      : 'the greatest of them counts: at least';
  return [
    ...sorted.map(({ sum, count }) => ({ sum, comes: at(count) })),
    { sum: last, comes: at(bound.at_least) },
  ];
}
