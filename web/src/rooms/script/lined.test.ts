import { expect, test } from 'vitest';
import { boatScript } from './boat_script';
import { linesOf, nextSeen, nextWorry, passes, seenIn, shownAnew, worryOf } from './lined';

const script = boatScript();
const scene = (number: string) => {
  const found = script.scenes.find((one) => one.scene.number === number);
  if (!found) throw new Error(`no scene ${number}`);
  return found.scene;
};
const setup = (name: string) => {
  const found = script.setups.find((one) => one.setup.name === name);
  if (!found) throw new Error(`no setup ${name}`);
  return found;
};

test('a scene has a line for each setup while it is planned, and for each take once it is shot', () => {
  expect(linesOf(script, scene('5'), 'planned').map((line) => line.name)).toEqual([
    '5',
    '5A',
    '5B',
  ]);
  expect(linesOf(script, scene('5'), 'shot').map((line) => line.name)).toEqual([
    '5-T1',
    '5A-T1',
    '5A-T2',
    '5B-T1',
    '5B-T2',
  ]);
  const circled = linesOf(script, scene('5'), 'shot').filter((line) => line.circled);
  expect(circled.map((line) => line.name)).toEqual(['5-T1', '5A-T2', '5B-T2']);
});

test('a line is wavy while off camera, and waits where it is wanted further down', () => {
  const names = ['5a', '5b', '5c', '5d'];
  expect(seenIn(setup('5'), names)).toEqual(['on', 'off', 'on', 'not']);
  expect(passes(seenIn(setup('5'), names))).toEqual([
    { seen: 'on', begins: true, ends: false, waits: false },
    { seen: 'off', begins: false, ends: false, waits: false },
    { seen: 'on', begins: false, ends: true, waits: false },
    { seen: 'not', begins: false, ends: false, waits: false },
  ]);
  expect(passes(seenIn(setup('5B'), names)).map((one) => one.waits)).toEqual([
    true,
    true,
    true,
    false,
  ]);
});

test('drawing in one scene leaves what a setup shows of another', () => {
  const both = [
    { action: '4c', off_camera: false },
    { action: '5a', off_camera: false },
  ];
  expect(shownAnew(both, ['5a', '5b'], ['not', 'off'])).toEqual([
    { action: '4c', off_camera: false },
    { action: '5b', off_camera: true },
  ]);
  expect(['not', 'on', 'off'].map((one) => nextSeen(one as 'not'))).toEqual(['on', 'off', 'not']);
});

test('what hangs on one take is asked about before what hangs on one setup', () => {
  const { shot } = script;
  if (!shot) throw new Error('the boat was shot');
  const worry = (name: string) => {
    const found = shot.by_action.find((one) => one.action === name);
    return found ? worryOf(found) : undefined;
  };
  expect([worry('1a'), worry('2a'), worry('5a'), worry('5c')]).toEqual([
    'one setup',
    null,
    'one take',
    'one take',
  ]);
  expect(nextWorry(shot, null)).toBe('5a');
  expect(nextWorry(shot, '5a')).toBe('5c');
  expect(nextWorry(shot, '5c')).toBeNull();
  expect(nextWorry({ ...shot, by_action: [] }, null)).toBeNull();
});
