// @ts-check
// The camera report on a phone: the page of it.

import { check, counter, footage, nextTake, standsAt, whole } from './counters.js';
import { browserStorage, keeper } from './keeping.js';
import { inOrder, reportCsv } from './report_csv.js';

/** @typedef {import('./counters.js').Entry} Entry */
/** @typedef {import('./keeping.js').Kept} Kept */
/** @typedef {{ name: string, action: string, takes: number, shot: number }} Planned */
/**
 * What the program has put in.
 * @typedef {{
 *   id: string, id_before: string, title: string, file: string, per_foot: number, load: number | null,
 *   setups: Planned[], draft: Record<string, string>,
 * }} Given
 */

/**
 * Something of the page.
 * @template {HTMLElement} T
 * @param {string} id
 * @param {new () => T} kind
 * @returns {T}
 */
function the(id, kind) {
  const found = document.getElementById(id);
  if (!(found instanceof kind)) throw new Error(`the page has no ${id}`);
  return found;
}

/**
 * A new element with words in it, never with markup.
 * @template {keyof HTMLElementTagNameMap} K
 * @param {K} tag
 * @param {string} name
 * @param {(string | Node)[]} within
 */
function made(tag, name, ...within) {
  const one = document.createElement(tag);
  one.className = name;
  one.append(...within);
  return one;
}

const given = /** @type {Given} */ (JSON.parse(the('given', HTMLElement).textContent ?? '{}'));
const keyOf = (/** @type {string} */ id) => `onestrand.camera.${id}`;
const place = keeper(browserStorage(), keyOf(given.id), given.id_before && keyOf(given.id_before));

/** What stands in the form, by the name of its field. */
const FIELDS = [
  ...['roll', 'batch', 'camera', 'load', 'setup', 'take', 'start', 'end', 'mark', 'remark'],
  ...['speed', 'lens', 'stop', 'filter', 'distance', 'unit', 'editing'],
];

const first = place.read();
let kept = first.kept;
const cameOver = place.takeOver(kept);
const foundAgain = kept.entries.length;
kept.opened += 1;
if (Object.keys(kept.draft).length === 0) kept.draft = { ...given.draft, unit: 'feet' };
let isKept = place.keep(kept);
/** What was asked and has to be said yes to. */
let askedBefore = '';

/** @param {string} name */
const field = (name) => kept.draft[name] ?? '';

/** @param {number} frames */
const say = (frames) =>
  field('unit') === 'feet' ? footage(frames, given.per_foot) : String(frames);

/**
 * Does something to what is kept, as it is there now: another page may have written.
 * @param {() => void} change
 */
function doing(change) {
  if (isKept) {
    const { kept: there } = place.read();
    kept = { ...there, draft: kept.draft };
  }
  change();
  isKept = place.keep(kept);
}

/** @returns {number | null} */
function load() {
  return kept.loads[field('roll')] ?? given.load;
}

/** @param {string} text */
const typed = (text) => counter(text, given.per_foot);

/**
 * The number of the next take.
 * @param {string} setup
 */
function numberOf(setup) {
  const planned = given.setups.find((one) => one.name.toUpperCase() === setup.toUpperCase());
  return String(nextTake(kept.entries, setup, planned?.shot ?? 0));
}

/** Takes the start from where the counter stands, and the number from the takes there are. */
function next() {
  const draft = kept.draft;
  draft['take'] = field('setup') ? numberOf(field('setup')) : '';
  draft['start'] = say(standsAt(kept.entries, field('roll')));
  draft['end'] = '';
  draft['mark'] = '';
  draft['remark'] = '';
  draft['editing'] = '';
}

/** The take as it stands in the form. Counters that cannot be read are told. */
function take() {
  const [start, end] = [typed(field('start')), typed(field('end'))];
  const number = whole(field('take'), 999);
  /** @type {string[]} */
  const wrong = [];
  for (const [what, value] of /** @type {const} */ ([
    ['start', start],
    ['end', end],
  ])) {
    if (value === null) {
      wrong.push(
        field(what).trim() === ''
          ? `Where did the counter stand at the ${what}?`
          : `“${field(what)}” is no counter such as 37+60 or 2724.`,
      );
    }
  }
  if (!field('setup').trim()) wrong.push('Which setup is it?');
  const words = (/** @type {string} */ name) => field(name).trim();
  /** @type {Entry} */
  const entry = {
    id: field('editing') || `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 8)}`,
    day: today(),
    roll: words('roll'),
    batch: words('batch'),
    camera: words('camera'),
    setup: words('setup'),
    take: number ?? 0,
    start: start ?? 0,
    end: end ?? 0,
    mark: words('mark'),
    remark: words('remark'),
    speed: words('speed'),
    lens: words('lens'),
    stop: words('stop'),
    filter: words('filter'),
    distance: words('distance'),
  };
  return { entry, wrong };
}

/** The day by the clock of the phone. */
function today() {
  const now = new Date();
  const two = (/** @type {number} */ n) => String(n).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function write() {
  const { entry, wrong } = take();
  const found = wrong.length > 0 ? { wrong, asked: [] } : check(entry, kept.entries, load(), say);
  if (found.wrong.length > 0) return tell(found.wrong, 'wrong');
  const asked = found.asked.join(' ');
  if (asked && asked !== askedBefore) {
    askedBefore = asked;
    tell([...found.asked, 'If so, press again.'], 'asked');
    the('write', HTMLButtonElement).textContent = 'Yes, write it down';
    return;
  }
  doing(() => {
    const at = kept.entries.findIndex((one) => one.id === entry.id);
    const before = kept.entries[at];
    if (before) kept.entries[at] = { ...entry, day: before.day };
    else kept.entries.push(entry);
    next();
  });
  show();
  tell(
    [`${entry.setup}-T${entry.take} is written down, ${entry.end - entry.start} frames.`],
    'done',
  );
}

/**
 * @param {string[]} lines
 * @param {'wrong' | 'asked' | 'done'} how
 */
function tell(lines, how) {
  const told = the('told', HTMLElement);
  told.className = how;
  told.replaceChildren(...lines.map((line) => made('p', '', line)));
}

/** Forgets what was asked, since something else stands there now. */
function askAnew() {
  askedBefore = '';
  the('write', HTMLButtonElement).textContent = field('editing') ? 'Put it right' : 'Write it down';
  the('told', HTMLElement).replaceChildren();
}

/** @param {string} setup */
function choose(setup) {
  doing(() => {
    kept.draft['setup'] = setup;
    if (!field('editing')) kept.draft['take'] = numberOf(setup);
  });
  show();
  the('slate', HTMLElement).scrollIntoView({ block: 'start' });
}

/** @param {Entry} entry */
function edit(entry) {
  doing(() => {
    const { id, start, end, ...words } = entry;
    for (const [name, value] of Object.entries(words)) kept.draft[name] = String(value);
    kept.draft['start'] = say(start);
    kept.draft['end'] = say(end);
    kept.draft['editing'] = id;
  });
  show();
  the('form', HTMLElement).scrollIntoView();
}

/** @param {Entry} entry */
function takeOut(entry) {
  doing(() => {
    kept.entries = kept.entries.filter((one) => one.id !== entry.id);
    kept.gone.push(entry);
    if (field('editing') === entry.id) next();
  });
  show();
  tell([`${entry.setup}-T${entry.take} is taken out. It can be put back at the end.`], 'done');
}

/** @param {Entry} entry */
function putBack(entry) {
  const found = check(entry, kept.entries, null, say);
  if (found.wrong.length > 0) return tell(found.wrong, 'wrong');
  doing(() => {
    kept.gone = kept.gone.filter((one) => one.id !== entry.id);
    kept.entries.push(entry);
  });
  show();
}

/** The file for the log. The sign before it tells tables that it is UTF-8. */
function save() {
  const file = new Blob(['\ufeff', reportCsv(kept.entries)], { type: 'text/csv' });
  const link = document.createElement('a');
  link.href = URL.createObjectURL(file);
  link.download = given.file;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

async function copy() {
  const text = the('csv', HTMLTextAreaElement);
  text.select();
  const done = await navigator.clipboard?.writeText(text.value).then(
    () => true,
    () => false,
  );
  tell(
    [done || document.execCommand('copy') ? 'Copied.' : 'Hold the text below and choose copy.'],
    'done',
  );
}

/** Whether it is kept, in words that need no knowledge of browsers. */
function showKept() {
  const state = the('kept', HTMLElement);
  const takes = kept.entries.length === 1 ? '1 take' : `${kept.entries.length} takes`;
  state.className = isKept ? 'kept' : 'lost';
  if (!isKept) {
    state.textContent =
      'NOT KEPT: this browser keeps nothing for this page. Copy the text at the end before you ' +
      'close it, or write on paper.';
  } else if (kept.opened === 1) {
    state.textContent =
      `${takes} kept on this phone. Try it before the shoot: write one down, close the page, ` +
      'open it again.';
  } else {
    state.textContent = `${takes} kept on this phone. Opened again with ${foundAgain} still here.`;
  }
  if (cameOver > 0) {
    const many = cameOver === 1 ? '1 take' : `${cameOver} takes`;
    state.append(` ${many} came over from an earlier page of this film.`);
  }
  if (first.aside) state.append(' What was kept before could not be read and was put aside.');
}

function showSetups() {
  const takesOf = (/** @type {string} */ name) =>
    kept.entries.filter((one) => one.setup === name).length;
  const button = (/** @type {Planned} */ setup) => {
    const of = setup.takes > 0 ? `${takesOf(setup.name)} of ${setup.takes}` : '';
    const one = made('button', 'setup', made('b', '', setup.name), made('span', 'count', of));
    one.append(made('span', 'what', setup.action));
    one.type = 'button';
    one.setAttribute('aria-pressed', String(field('setup') === setup.name));
    one.addEventListener('click', () => choose(setup.name));
    return one;
  };
  the('setups', HTMLElement).replaceChildren(...given.setups.map(button));
}

function showForm() {
  for (const name of FIELDS) {
    const input = document.getElementById(name);
    if (input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement) {
      if (input.value !== field(name)) input.value = field(name);
    }
  }
  const most = load();
  const stands = standsAt(kept.entries, field('roll'));
  const loaded = the('load', HTMLInputElement);
  if (document.activeElement !== loaded) loaded.value = most === null ? '' : say(most);
  the('left', HTMLElement).textContent =
    most === null ? `stands at ${say(stands)}` : `${say(Math.max(0, most - stands))} left`;
  the('slate', HTMLElement).textContent = field('setup')
    ? `${field('setup')}-T${field('take') || '?'}`
    : 'which setup?';
  for (const button of document.querySelectorAll('button[data-mark]')) {
    const pressed = button instanceof HTMLElement && button.dataset['mark'] === field('mark');
    button.setAttribute('aria-pressed', String(pressed));
  }
  const unit = the('unit', HTMLButtonElement);
  unit.textContent = field('unit') === 'feet' ? 'feet + frames' : 'frames';
  for (const name of ['start', 'end']) {
    the(name, HTMLInputElement).placeholder = field('unit') === 'feet' ? '12+34' : '898';
  }
  showLength();
  the('back', HTMLButtonElement).hidden = !field('editing');
  askAnew();
}

function showLength() {
  const [start, end] = [typed(field('start')), typed(field('end'))];
  const length = start !== null && end !== null ? end - start : null;
  the('length', HTMLElement).textContent = length !== null && length > 0 ? `${length} frames` : '';
}

function showList() {
  const line = (/** @type {Entry} */ one) => {
    const words = [one.mark, one.remark].filter((word) => word !== '').join(', ');
    const item = made(
      'li',
      '',
      made('b', one.mark === 'good' ? 'ringed' : '', `${one.setup}-T${one.take}`),
      made('span', 'at', `${one.roll} ${say(one.start)} to ${say(one.end)}`),
      made('span', 'said', words),
    );
    const right = made('button', '', 'Put right');
    const out = made('button', '', 'Take out');
    for (const button of [right, out]) button.type = 'button';
    right.addEventListener('click', () => edit(one));
    out.addEventListener('click', () => takeOut(one));
    item.append(made('span', 'do', right, out));
    return item;
  };
  the('list', HTMLElement).replaceChildren(...inOrder(kept.entries).reverse().map(line));
  const back = (/** @type {Entry} */ one) => {
    const button = made('button', '', `Put ${one.setup}-T${one.take} back`);
    button.type = 'button';
    button.addEventListener('click', () => putBack(one));
    return button;
  };
  the('gone', HTMLElement).replaceChildren(...kept.gone.map(back));
  the('csv', HTMLTextAreaElement).value = reportCsv(kept.entries);
  the('save', HTMLButtonElement).disabled = kept.entries.length === 0;
}

function show() {
  showKept();
  showSetups();
  showForm();
  showList();
}

/** @param {string} name */
function listen(name) {
  const input = document.getElementById(name);
  if (!(input instanceof HTMLInputElement || input instanceof HTMLTextAreaElement)) return;
  input.addEventListener('input', () => {
    doing(() => {
      kept.draft[name] = input.value;
      if (name === 'setup' && !field('editing')) {
        kept.draft['take'] = numberOf(input.value.trim());
      }
      const most = typed(input.value);
      if (name === 'load' && most !== null) kept.loads[field('roll')] = most;
      if (name === 'load' && input.value.trim() === '') delete kept.loads[field('roll')];
      if (name === 'roll' && !field('editing')) {
        kept.draft['start'] = say(standsAt(kept.entries, input.value.trim()));
      }
    });
    showKept();
    showForm();
    if (name === 'setup') showSetups();
  });
}

for (const name of FIELDS) listen(name);
for (const button of document.querySelectorAll('button[data-mark]')) {
  button.addEventListener('click', () => {
    const mark = (button instanceof HTMLElement && button.dataset['mark']) || '';
    doing(() => {
      kept.draft['mark'] = field('mark') === mark ? '' : mark;
    });
    showForm();
  });
}
the('unit', HTMLButtonElement).addEventListener('click', () => {
  const [start, end] = [typed(field('start')), typed(field('end'))];
  doing(() => {
    kept.draft['unit'] = field('unit') === 'feet' ? 'frames' : 'feet';
    if (start !== null) kept.draft['start'] = say(start);
    if (end !== null) kept.draft['end'] = say(end);
  });
  show();
});
the('form', HTMLFormElement).addEventListener('submit', (event) => {
  event.preventDefault();
  write();
});
the('back', HTMLButtonElement).addEventListener('click', () => {
  doing(next);
  show();
});
the('save', HTMLButtonElement).addEventListener('click', save);
the('copy', HTMLButtonElement).addEventListener('click', () => void copy());
// Another page of the same report has written.
window.addEventListener('storage', () => {
  kept = { ...place.read().kept, draft: kept.draft };
  show();
});
if (!field('start') && !field('editing')) next();
show();
