// @ts-check
// The camera report as CSV, for the log of the film: RFC 4180, UTF-8.

/** @typedef {import('./counters.js').Entry} Entry */

/** What a log reads, and what goes into its note. Counters are frames. */
const COLUMNS = /** @type {const} */ ([
  ['roll', 'roll'],
  ['slate', 'setup'],
  ['take', 'take'],
  ['start', 'start'],
  ['end', 'end'],
  ['mark', 'mark'],
  ['remark', 'remark'],
  ['day', 'day'],
  ['batch', 'batch'],
  ['camera', 'camera'],
  ['f/s', 'speed'],
  ['lens', 'lens'],
  ['stop', 'stop'],
  ['filter', 'filter'],
  ['distance', 'distance'],
]);
/** Columns that a log has to have, whether anything stands in them or not. */
const ALWAYS = 7;

/**
 * A cell. What a table would take for a formula has a space before it, which the log
 * takes off again.
 * @param {string | number} value
 */
function cell(value) {
  const text = typeof value === 'number' ? String(value) : value;
  const safe = /^\s*[=+\-@\t\r]/.test(text) ? ` ${text}` : text;
  return /[",\r\n;\t]|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

/**
 * Every take in the order of its roll, the rolls in the order in which they were begun.
 * @param {Entry[]} entries
 */
export function inOrder(entries) {
  const rolls = [...new Set(entries.map((one) => one.roll))];
  return [...entries].sort(
    (a, b) => rolls.indexOf(a.roll) - rolls.indexOf(b.roll) || a.start - b.start,
  );
}

/**
 * The report; a column nobody filled in is left out.
 * @param {Entry[]} entries
 */
export function reportCsv(entries) {
  const columns = COLUMNS.filter(
    ([, key], at) => at < ALWAYS || entries.some((one) => one[key] !== ''),
  );
  const lines = [
    columns.map(([name]) => name),
    ...inOrder(entries).map((one) => columns.map(([, key]) => cell(one[key]))),
  ];
  return `${lines.map((cells) => cells.join(',')).join('\r\n')}\r\n`;
}
