// What a key does somewhere, in plain English.

import { type KeyGroup, type KeyName, type KeyWords, OR } from '$lib/ui/keyline/key_names';

/** Keys that are held down with another. On a Mac, Command counts as Ctrl. */
export type With = 'shift' | 'ctrl' | 'ctrl+shift';

/** One or more keys that do the same here. */
export interface Binding {
  /** As the browser names them: `ArrowDown`, `PageUp`, `Enter`, `?`; the space bar is `Space`. */
  readonly keys: readonly string[];
  readonly with?: With;
  /** What it does, for the sheet of all keys; bindings with the same words stand together: `one frame back, on`. */
  readonly words: string;
  /** What it belongs to on the sheet of all keys, beside the room's own heading: `the piece`. */
  readonly under?: string;
  /**
   * What the key line says; bindings with the same words there stand together.
   * Without it the line says `words`; false leaves it to the sheet of all keys.
   */
  readonly line?: string | false;
  /** Held down it acts again and again, at most once each time the screen is drawn. */
  readonly held?: boolean;
  /** False says that the key has nothing to do here now, and goes to whoever is below. */
  readonly act: (key: string) => boolean | void;
}

/** What a key press must say; a `KeyboardEvent` does. */
export interface KeyPress {
  readonly key: string;
  readonly shiftKey: boolean;
  readonly ctrlKey: boolean;
  readonly metaKey: boolean;
  readonly altKey: boolean;
  readonly repeat: boolean;
  readonly isComposing: boolean;
}

const CAPS: Record<string, KeyName> = {
  ArrowUp: 'up',
  ArrowDown: 'down',
  ArrowLeft: 'left',
  ArrowRight: 'right',
  Escape: 'Esc',
  PageUp: 'Page Up',
  PageDown: 'Page Down',
};

/** The key as its cap reads. */
export function capOf(key: string): KeyName {
  return CAPS[key] ?? (key.length === 1 ? key.toUpperCase() : key);
}

/** The name of a pressed key as bindings write it. */
export function keyOf(press: KeyPress): string {
  if (press.key === ' ') return 'Space';
  return /^[a-z]$/i.test(press.key) ? press.key.toLowerCase() : press.key;
}

/** What a press is held down with; null for Alt, which is the system's own. */
export function heldWith(press: KeyPress): With | 'nothing' | null {
  if (press.altKey) return null;
  const ctrl = press.ctrlKey || press.metaKey;
  // On one keyboard `?` needs Shift, on another not: the sign itself is what was meant.
  const shift = press.shiftKey && !/^[^a-z0-9 ]$/i.test(press.key);
  if (ctrl) return shift ? 'ctrl+shift' : 'ctrl';
  return shift ? 'shift' : 'nothing';
}

/** Whether a binding is meant by a press. */
export function isMeant(binding: Binding, press: KeyPress): boolean {
  return (
    heldWith(press) === (binding.with ?? 'nothing') &&
    binding.keys.some((key) => key.toLowerCase() === keyOf(press).toLowerCase())
  );
}

/** Letters and figures are for writing: without Ctrl none may run or mark anything. */
export function withoutLetters(bindings: readonly Binding[]): readonly Binding[] {
  const bad = bindings.find(
    (each) =>
      !each.with?.startsWith('ctrl') && each.keys.some((key) => /^[\p{L}\p{N}]$/u.test(key)),
  );
  if (bad) throw new Error(`a letter without Ctrl: ${bad.keys.join(', ')} for "${bad.words}"`);
  return bindings;
}

const WITH_CAPS: Record<With, readonly KeyName[]> = {
  shift: ['Shift'],
  ctrl: ['Ctrl'],
  'ctrl+shift': ['Ctrl', 'Shift'],
};

interface Entry {
  readonly with: With | undefined;
  readonly keys: KeyName[];
  words: string;
}

/** Bindings as caps and words; those of the same words and the same Shift or Ctrl stand together. */
function entries(bindings: readonly Binding[], wordsOf: (binding: Binding) => string | false) {
  const all: Entry[] = [];
  for (const binding of bindings) {
    const words = wordsOf(binding);
    if (words === false) continue;
    const same = all.find((each) => each.words === words && each.with === binding.with);
    // Another key for the same, where a keyboard lacks the first.
    const keys = binding.keys.flatMap((key, nth) => (nth > 0 ? [OR, capOf(key)] : [capOf(key)]));
    if (same) same.keys.push(...keys.filter((key) => !same.keys.includes(key)));
    else all.push({ with: binding.with, keys, words: unlike(words, all) });
  }
  return all.map(({ with: held, keys, words }): KeyWords => {
    return { keys: held ? [...WITH_CAPS[held], ...keys] : keys, words };
  });
}

/** No two entries of a list say the same. */
function unlike(words: string, all: readonly Entry[]): string {
  return all.some((each) => each.words === words) ? unlike(`${words}, as well`, all) : words;
}

/** The key line of some bindings, in order. */
export function lineOf(bindings: readonly Binding[]): KeyWords[] {
  return entries(bindings, (binding) => binding.line ?? binding.words);
}

/** All keys of a layer: those of the room itself, then those of each thing in it. */
export function groupsOf(heading: string, bindings: readonly Binding[]): KeyGroup[] {
  const unders = [...new Set(bindings.map((binding) => binding.under))];
  return unders.map((under) => ({
    heading: under ? `${heading}: ${under}` : heading,
    keys: entries(
      bindings.filter((binding) => binding.under === under),
      (binding) => binding.words,
    ),
  }));
}

const pressOf = (binding: Binding, key: string) => `${binding.with ?? ''} ${key.toLowerCase()}`;

/** Without what stands under another heading already. */
export function without(bindings: readonly Binding[], listed: readonly Binding[]): Binding[] {
  const known = new Set(listed.flatMap((each) => each.keys.map((key) => pressOf(each, key))));
  return bindings.filter((each) => !each.keys.every((key) => known.has(pressOf(each, key))));
}
