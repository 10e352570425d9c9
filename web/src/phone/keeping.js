// @ts-check
// What is kept on the phone: everything at each change, read back each time.

/** @typedef {import('./counters.js').Entry} Entry */

/**
 * What is typed and not yet written down.
 * @typedef {Record<string, string>} Draft
 */

/**
 * @typedef {{
 *   entries: Entry[], gone: Entry[], loads: Record<string, number>,
 *   draft: Draft, opened: number,
 * }} Kept
 */

/** @returns {Kept} */
export function nothingYet() {
  return { entries: [], gone: [], loads: {}, draft: {}, opened: 0 };
}

/**
 * Whether this is a take as it was written down here.
 * @param {unknown} one
 * @returns {one is Entry}
 */
function isEntry(one) {
  if (typeof one !== 'object' || one === null) return false;
  const has = /** @type {Record<string, unknown>} */ (one);
  const words = ['id', 'day', 'roll', 'batch', 'camera', 'setup', 'mark', 'remark'];
  const more = ['speed', 'lens', 'stop', 'filter', 'distance'];
  return (
    [...words, ...more].every((key) => typeof has[key] === 'string') &&
    ['take', 'start', 'end'].every((key) => Number.isInteger(has[key]))
  );
}

/**
 * What was kept, out of its text; nothing where the text cannot be read.
 * @param {string} text
 * @returns {Kept | null}
 */
export function readKept(text) {
  try {
    const found = /** @type {unknown} */ (JSON.parse(text));
    if (typeof found !== 'object' || found === null) return null;
    const kept = /** @type {Kept} */ ({ ...nothingYet(), ...found });
    const lists = Array.isArray(kept.entries) && Array.isArray(kept.gone);
    return lists && [...kept.entries, ...kept.gone].every(isEntry) ? kept : null;
  } catch {
    return null;
  }
}

/**
 * Puts what was kept elsewhere to what is kept here, and says how many takes that were.
 * @param {Kept} kept
 * @param {Kept} more
 */
function join(kept, more) {
  const known = new Set([...kept.entries, ...kept.gone].map((one) => one.id));
  const isNew = (/** @type {Entry} */ one) => !known.has(one.id);
  const entries = more.entries.filter(isNew);
  kept.entries.push(...entries);
  kept.gone.push(...more.gone.filter(isNew));
  kept.loads = { ...more.loads, ...kept.loads };
  if (Object.keys(kept.draft).length === 0) kept.draft = { ...more.draft };
  return entries.length;
}

/**
 * The place where a film's report is kept, in this browser.
 * @param {Storage | null} storage
 * @param {string} key
 * @param {string} [before] where pages made by older programs kept it
 */
export function keeper(storage, key, before = '') {
  return {
    /**
     * What is there. What cannot be read is put aside, never thrown away.
     * @returns {{ kept: Kept, aside: boolean }}
     */
    read() {
      const text = storage?.getItem(key) ?? null;
      if (text === null) return { kept: nothingYet(), aside: false };
      const kept = readKept(text);
      if (kept) return { kept, aside: false };
      storage?.setItem(`${key}.aside.${Date.now()}`, text);
      return { kept: nothingYet(), aside: true };
    },
    /**
     * Takes over what an older page of this film has kept, and says how many takes came.
     * The first film of a title that asks has it; what is there stays there.
     * @param {Kept} kept
     */
    takeOver(kept) {
      const text = before === '' ? null : (storage?.getItem(before) ?? null);
      const more = text === null ? null : readKept(text);
      if (!storage || !more) return 0;
      const mark = `${before}.taken`;
      const taken = storage.getItem(mark);
      if (taken !== null && taken !== key) return 0;
      try {
        storage.setItem(mark, key);
      } catch {
        // The mark has no room: the takes are worth more than it.
      }
      return join(kept, more);
    },
    /**
     * Keeps it, and says whether it is really there.
     * @param {Kept} kept
     */
    keep(kept) {
      if (!storage) return false;
      try {
        const text = JSON.stringify(kept);
        storage.setItem(key, text);
        return storage.getItem(key) === text;
      } catch {
        return false;
      }
    },
  };
}

/** The storage of the browser, where it gives one. */
export function browserStorage() {
  try {
    return window.localStorage;
  } catch {
    return null;
  }
}
