// Which key does what, here and now. Rooms and dialogues lay their bindings on
// top of the shell's; one listener on the window asks the topmost first.

import { getContext, setContext, untrack } from 'svelte';
import type { KeyGroup, KeyWords } from '$lib/ui/keyline/key_names';
import {
  type Binding,
  groupsOf,
  heldWith,
  isMeant,
  type KeyPress,
  keyOf,
  lineOf,
  without,
  withoutLetters,
} from './binding';
import { mayHave, type Owner, ownerOf } from './key_owner';
import { StepGate } from './step_gate';

/** Bindings that belong together. */
export interface Layer {
  /** A dialogue lies over the room, the room over the shell. What lies under a dialogue has no keys. */
  readonly kind: 'shell' | 'room' | 'dialogue';
  /** For the sheet of all keys: `At the join`. */
  readonly heading: string;
  /** Asked anew at each press, so that it may speak of what is chosen now. */
  readonly bindings: () => readonly Binding[];
}

const HEIGHT = { shell: 0, room: 1, dialogue: 2 } as const;

/** The bindings of the whole page. */
export class Keys {
  /** Whether the sheet of all keys lies open; `?` opens it. */
  sheetOpen = $state(false);

  // From the bottom up.
  #layers = $state.raw<readonly Layer[]>([]);
  readonly #gate: StepGate;

  readonly #sheetKey: Binding = {
    keys: ['?'],
    words: 'all keys',
    line: false,
    act: () => {
      this.sheetOpen = true;
    },
  };

  constructor(
    gate = new StepGate(
      (act) => requestAnimationFrame(act),
      (request) => cancelAnimationFrame(request),
    ),
  ) {
    this.#gate = gate;
  }

  /** Lays bindings down; gives back how to take them up. May be called in an effect. */
  lay(layer: Layer): () => void {
    // The effect that lays them must not run again because they were laid.
    untrack(() => {
      const below = this.#layers.filter((each) => HEIGHT[each.kind] <= HEIGHT[layer.kind]);
      const above = this.#layers.filter((each) => HEIGHT[each.kind] > HEIGHT[layer.kind]);
      this.#layers = [...below, layer, ...above];
    });
    return () => {
      this.#layers = untrack(() => this.#layers).filter((each) => each !== layer);
      this.#gate.lift();
    };
  }

  /** Layers that have the keys now, the topmost first. */
  readonly #open = $derived.by((): readonly Layer[] => {
    const fromTop = [...this.#layers].reverse();
    const dialogue = fromTop.find((each) => each.kind === 'dialogue');
    return dialogue ? [dialogue] : fromTop;
  });

  /** The key line: what the topmost layers do, and then what those under them do. */
  readonly line: readonly KeyWords[] = $derived(lineOf(this.#openBindings()));

  /** The sheet of all keys: the room and what is in it, and last what works everywhere, which stands there only. */
  readonly all: readonly KeyGroup[] = $derived.by(() => {
    const shell = this.#open.filter((layer) => layer.kind === 'shell');
    const everywhere = shell.flatMap((layer) => withoutLetters(layer.bindings()));
    const groups = this.#open.flatMap((layer) => {
      const bindings = withoutLetters(layer.bindings());
      if (layer.kind === 'shell') return groupsOf(layer.heading, [...bindings, this.#sheetKey]);
      return groupsOf(layer.heading, without(bindings, everywhere));
    });
    return groups.filter((group) => group.keys.length > 0);
  });

  #openBindings(): Binding[] {
    return this.#open.flatMap((layer) => withoutLetters(layer.bindings()));
  }

  /** A key went down; true when it was for us, and nobody else is to have it. */
  press(press: KeyPress, owner: Owner): boolean {
    const [key, held] = [keyOf(press), heldWith(press)];
    if (press.isComposing || held === null) return false;
    if (!mayHave(owner, key, held.startsWith('ctrl'))) return false;
    if (this.sheetOpen) return this.#pressOnSheet(key, held);
    const meant = [...this.#openBindings(), this.#sheetKey].filter((each) => isMeant(each, press));
    return meant.some((binding) => this.#do(binding, key, press.repeat));
  }

  #pressOnSheet(key: string, held: string): boolean {
    if (held !== 'nothing' || (key !== 'Escape' && key !== '?')) return false;
    this.sheetOpen = false;
    return true;
  }

  #do(binding: Binding, key: string, isRepeat: boolean): boolean {
    if (!isRepeat) return binding.act(key) !== false;
    // A key that is held down does once what is not made for it.
    if (binding.held) this.#gate.repeat(key, () => void binding.act(key));
    return true;
  }

  /** A key was lifted. */
  lift(press: KeyPress): void {
    this.#gate.lift(keyOf(press));
  }

  /** Listens on a window; gives back how to stop. */
  listen(to: Window): () => void {
    const down = (event: KeyboardEvent) => {
      // What has the focus has had it already.
      if (event.defaultPrevented) return;
      if (this.press(event, ownerOf(event.target))) event.preventDefault();
    };
    const up = (event: KeyboardEvent) => this.lift(event);
    const left = () => this.#gate.lift();
    to.addEventListener('keydown', down);
    to.addEventListener('keyup', up);
    to.addEventListener('blur', left);
    return () => {
      to.removeEventListener('keydown', down);
      to.removeEventListener('keyup', up);
      to.removeEventListener('blur', left);
    };
  }
}

const KEY = Symbol('keys');

/** Hands the keys down to all that is drawn below. */
export function keepKeys(keys: Keys): Keys {
  return setContext(KEY, keys);
}

/** The keys of the page. */
export function theKeys(): Keys {
  return getContext<Keys>(KEY);
}
