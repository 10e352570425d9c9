// The names of keys, and the arrows drawn for those that have no letter.

export type KeyName = 'up' | 'down' | 'left' | 'right' | (string & {});

/** Stands between two keys of which either does it. */
export const OR = 'or';

/** Keys, and in plain English what they do here. */
export interface KeyWords {
  readonly keys: readonly KeyName[];
  readonly words: string;
}

/** Keys under a heading, for the sheet of all keys. */
export interface KeyGroup {
  readonly heading: string;
  readonly keys: readonly KeyWords[];
}

const ARROWS: Record<string, { path: string; spoken: string }> = {
  up: { path: 'M7 12V2M3 6l4-4 4 4', spoken: 'up arrow' },
  down: { path: 'M7 2v10M3 8l4 4 4-4', spoken: 'down arrow' },
  left: { path: 'M12 7H2M6 3L2 7l4 4', spoken: 'left arrow' },
  right: { path: 'M2 7h10M8 3l4 4-4 4', spoken: 'right arrow' },
};

/** The arrow of a key as a path in a box of 14, where it has one. */
export function drawnArrow(name: KeyName): string | undefined {
  return ARROWS[name]?.path;
}

/** What is said for a key. */
export function keySpoken(name: KeyName): string {
  return ARROWS[name]?.spoken ?? name;
}
