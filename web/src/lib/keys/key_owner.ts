// Whose a key is: what has the focus may need it for itself.

/** What has the focus, as far as keys are concerned. */
export type Owner =
  /** Nothing in particular. */
  | 'page'
  /** Something that gives all its keys to the room: marked `data-keys="room"`. */
  | 'room'
  /** A text is being written. */
  | 'field'
  /** Enter and Space press it. */
  | 'button'
  /** Arrows and letters choose in it. */
  | 'choice';

const FIELDS = [
  'textarea',
  '[contenteditable]:not([contenteditable="false"])',
  '[role="textbox"]',
  '[role="searchbox"]',
  '[role="combobox"]',
  'input',
].join();
const BUTTONS = [
  'button',
  'a[href]',
  'summary',
  '[role="button"]',
  '[role="link"]',
  '[role="switch"]',
  '[role="checkbox"]',
  '[role="menuitem"]',
].join();
const CHOICES = [
  'select',
  '[role="radio"]',
  '[role="slider"]',
  '[role="spinbutton"]',
  '[role="listbox"]',
  '[role="option"]',
  '[role="tab"]',
].join();
const ROOMS = '[data-keys="room"]';

/** Kinds of input that are no texts. */
const PRESSED = ['button', 'submit', 'reset', 'checkbox', 'file', 'color', 'image'];
const CHOSEN = ['radio', 'range'];

/** Whose keys they are when `target` has the focus. */
export function ownerOf(target: EventTarget | null): Owner {
  if (!(target instanceof Element)) return 'page';
  const control = target.closest([FIELDS, BUTTONS, CHOICES, ROOMS].join());
  if (!control) return 'page';
  if (control.matches(ROOMS)) return 'room';
  if (control.matches(CHOICES)) return 'choice';
  if (control instanceof HTMLInputElement) {
    if (PRESSED.includes(control.type)) return 'button';
    return CHOSEN.includes(control.type) ? 'choice' : 'field';
  }
  return control.matches(FIELDS) ? 'field' : 'button';
}

const CHOOSING = [
  'ArrowUp',
  'ArrowDown',
  'ArrowLeft',
  'ArrowRight',
  'Home',
  'End',
  'PageUp',
  'PageDown',
];

/** Whether the room may have a key while `owner` has the focus. */
export function mayHave(owner: Owner, key: string, ctrl: boolean): boolean {
  // Tab takes everyone through the page; only what is marked may use it otherwise.
  if (key === 'Tab') return owner === 'room';
  const presses = !ctrl && (key === 'Enter' || key === 'Space');
  switch (owner) {
    case 'page':
    case 'room':
      return true;
    case 'field':
      return key === 'Escape' || (key === 'Enter' && ctrl);
    case 'button':
      return !presses;
    case 'choice':
      return !presses && !CHOOSING.includes(key) && (ctrl || key.length > 1);
  }
}
