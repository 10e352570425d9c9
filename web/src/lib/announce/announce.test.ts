import { render, screen } from '@testing-library/svelte';
import { flushSync } from 'svelte';
import { beforeEach, expect, it } from 'vitest';
import AnnouncerRegions from './Announcer.svelte';
import { Announcer, SETTLES, STAYS } from './announce.svelte';

let announcer: Announcer;
let now: number;
let due: { at: number; act: () => void }[];

const polite = () => announcer.polite.map((message) => message.words);
const assertive = () => announcer.assertive.map((message) => message.words);

function wait(ms: number): void {
  const until = now + ms;
  for (;;) {
    const next = due.filter((each) => each.at <= until).sort((a, b) => a.at - b.at)[0];
    if (!next) break;
    due = due.filter((each) => each !== next);
    now = next.at;
    next.act();
  }
  now = until;
}

beforeEach(() => {
  [now, due] = [0, []];
  announcer = new Announcer({
    later: (ms, act) => {
      const one = { at: now + ms, act };
      due.push(one);
      return () => {
        due = due.filter((each) => each !== one);
      };
    },
  });
});

it('says a step at once, and of many fast ones the first and the last', () => {
  announcer.say('R1 2939, first kept', 'frame');
  expect(polite()).toEqual(['R1 2939, first kept']);
  for (let frame = 2940; frame < 2960; frame += 1) {
    wait(30);
    announcer.say(`R1 ${frame}`, 'frame');
  }
  expect(polite()).toHaveLength(1);
  wait(SETTLES);
  expect(polite()).toEqual(['R1 2939, first kept', 'R1 2959']);
});

it('after a quiet moment says the next at once again', () => {
  announcer.say('R1 1', 'frame');
  wait(SETTLES + 1);
  announcer.say('R1 2', 'frame');
  expect(polite()).toEqual(['R1 1', 'R1 2']);
});

it('things do not push each other out', () => {
  announcer.say('R1 1', 'frame');
  announcer.say('R1 2', 'frame');
  announcer.say('Kept.', 'kept');
  announcer.say('Strand check: this join cannot be made.');
  wait(SETTLES);
  expect(polite()).toEqual(['R1 1', 'Kept.', 'Strand check: this join cannot be made.', 'R1 2']);
});

it('the same words are said again, as a message of their own', () => {
  announcer.say('Kept.');
  announcer.say('Kept.');
  const [first, second] = announcer.polite;
  expect(polite()).toEqual(['Kept.', 'Kept.']);
  expect(first?.id).not.toBe(second?.id);
});

it('breaks in on its own line, and forgets what is no longer seen', () => {
  announcer.breakIn('The program has stopped.');
  expect([assertive(), polite()]).toEqual([['The program has stopped.'], []]);
  announcer.say('R1 1', 'frame');
  announcer.say('R1 2', 'frame');
  announcer.forget('frame');
  wait(SETTLES * 2);
  expect(polite()).toEqual(['R1 1']);
  announcer.say('');
  expect(polite()).toHaveLength(1);
});

it('messages are taken away when they have been heard', () => {
  announcer.say('one');
  wait(STAYS - 1);
  announcer.say('two');
  expect(polite()).toEqual(['one', 'two']);
  wait(1);
  expect(polite()).toEqual(['two']);
});

it('both regions stand on the page before anything is said', () => {
  render(AnnouncerRegions, { announcer });
  const [log, alert] = [screen.getByRole('log'), screen.getByRole('alert')];
  expect([log.getAttribute('aria-live'), log.textContent, alert.textContent]).toEqual([
    'polite',
    '',
    '',
  ]);
  announcer.say('R1 1');
  announcer.breakIn('Refused.');
  flushSync();
  expect([log.textContent, alert.textContent]).toEqual(['R1 1', 'Refused.']);
});
