// @ts-check
// The counter of a camera: read, written, and held against the takes before.
// Plain script, since it goes into a file that a phone opens from its own storage;
// the words `export` and `import` are taken off where it is put in.

/**
 * A take as it was written down. Counters are frames.
 * @typedef {{
 *   id: string, day: string, roll: string, batch: string, camera: string,
 *   setup: string, take: number, start: number, end: number, mark: string,
 *   remark: string, speed: string, lens: string, stop: string, filter: string,
 *   distance: string,
 * }} Entry
 */

/** Takes go to 999, rolls to a kilometre of 8 mm: more is a slip of the finger. */
const MOST_TAKE = 999;
const MOST_FRAMES = 300_000;

/**
 * A whole number out of what was typed; nothing where there is none.
 * @param {string} text
 * @param {number} most
 * @returns {number | null}
 */
export function whole(text, most = MOST_FRAMES) {
  const plain = text.trim();
  if (!/^[0-9]{1,7}$/.test(plain)) return null;
  const number = Number(plain);
  return number <= most ? number : null;
}

/**
 * A counter in frames: `2724`, or feet and frames as `37+60`.
 * @param {string} text
 * @param {number} perFoot frames to a foot
 * @returns {number | null}
 */
export function counter(text, perFoot) {
  const parts = text.trim().split('+');
  if (parts.length === 1) return whole(text);
  const [feet, frames] = [whole(parts[0] ?? ''), whole(parts[1] ?? '')];
  if (parts.length > 2 || feet === null || frames === null || frames >= perFoot) return null;
  const all = feet * perFoot + frames;
  return all <= MOST_FRAMES ? all : null;
}

/**
 * Frames as a footage counter shows them: `37+60`.
 * @param {number} frames
 * @param {number} perFoot
 */
export function footage(frames, perFoot) {
  return `${Math.floor(frames / perFoot)}+${frames % perFoot}`;
}

/**
 * The number of the next take of a setup.
 * @param {Entry[]} entries
 * @param {string} setup
 * @param {number} shot the highest that was shot before
 */
export function nextTake(entries, setup, shot = 0) {
  const same = entries.filter((one) => one.setup.toUpperCase() === setup.toUpperCase());
  return same.reduce((most, one) => Math.max(most, one.take), shot) + 1;
}

/**
 * Where the counter of a roll stands: after its last take.
 * @param {Entry[]} entries
 * @param {string} roll
 */
export function standsAt(entries, roll) {
  const same = entries.filter((one) => one.roll === roll);
  return same.reduce((most, one) => Math.max(most, one.end), 0);
}

/**
 * What is wrong with a take, and what is asked of it, in words. What is wrong keeps it
 * from being written down, since a log would refuse it; what is asked does not.
 * @param {Entry} take
 * @param {Entry[]} entries all others
 * @param {number | null} load frames of the roll that can be used
 * @param {(frames: number) => string} say a counter in words
 * @returns {{ wrong: string[], asked: string[] }}
 */
export function check(take, entries, load, say) {
  /** @type {string[]} */
  const wrong = [];
  /** @type {string[]} */
  const asked = [];
  if (!/^[A-Za-z0-9][A-Za-z0-9_-]{0,15}$/.test(take.roll) || /^(leader|card)$/i.test(take.roll)) {
    wrong.push('The roll needs a name of letters and figures, such as R1.');
  }
  if (!/^[A-Za-z0-9]{1,12}$/.test(take.setup)) {
    wrong.push('The setup needs a name of letters and figures, such as 3A.');
  }
  if (!(take.take >= 1 && take.take <= MOST_TAKE)) wrong.push('Takes are numbered from 1.');
  const others = entries.filter((one) => one.id !== take.id);
  const name = `${take.setup}-T${take.take}`.toUpperCase();
  if (others.some((one) => `${one.setup}-T${one.take}`.toUpperCase() === name)) {
    wrong.push(`${take.setup}-T${take.take} stands already; give it the next number.`);
  }
  if (take.start === take.end) {
    wrong.push(`The counter stands still at ${say(take.start)}: a take has a length.`);
  } else if (take.start > take.end) {
    wrong.push(
      `The counter runs backwards, from ${say(take.start)} to ${say(take.end)}. ` +
        'Does one of them say what was left?',
    );
  } else {
    against(take, others, wrong, asked, say);
  }
  if (load !== null && take.end > load && take.start < take.end) {
    wrong.push(
      `The end, ${say(take.end)}, is beyond the load of ${say(load)}. ` +
        'If this roll holds more, change its load.',
    );
  }
  return { wrong, asked };
}

/**
 * Holds a take against the others of its roll.
 * @param {Entry} take
 * @param {Entry[]} others
 * @param {string[]} wrong
 * @param {string[]} asked
 * @param {(frames: number) => string} say
 */
function against(take, others, wrong, asked, say) {
  const same = others.filter((one) => one.roll === take.roll);
  for (const one of same) {
    if (take.start < one.end && one.start < take.end) {
      wrong.push(
        `This lies over ${one.setup}-T${one.take}, ${say(one.start)} to ${say(one.end)}: ` +
          'put one of the counters right, or begin a new roll.',
      );
    }
  }
  const ends = same.map((one) => one.end).filter((end) => end <= take.start);
  const before = Math.max(0, ...ends);
  const gap = take.start - before;
  if (gap > 0 && wrong.length === 0) {
    asked.push(
      before === 0
        ? `${gap} frames of ${take.roll} have run before this take. Is that so?`
        : `${gap} ${gap === 1 ? 'frame has' : 'frames have'} run since ${say(before)} ` +
            'that are in no take. Is that so?',
    );
  }
}
