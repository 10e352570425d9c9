// The name of one frame of camera original: roll and frame, `R2·547`.

/** A frame of a roll, counted from the head. */
export interface FrameName {
  readonly roll: string;
  readonly frame: number;
}

/** The largest frame number there is; the film crate has the same. */
export const FRAME_MAX = 100_000_000;

const ROLL = /^[A-Za-z0-9][A-Za-z0-9_-]{0,15}$/;
const TAKEN = ['leader', 'card'];

/** Whether a text can be the name of a roll: `R1`; on a sheet, leader and card name other things. */
export function isRollName(text: string): boolean {
  return ROLL.test(text) && !TAKEN.includes(text.toLowerCase());
}

/** `R2·547`. */
export function frameName(roll: string, frame: number): string {
  return `${roll}·${frame}`;
}

/** What a screen reader says at each step: `R1 2939`. */
export function frameSpoken(roll: string, frame: number): string {
  return `${roll} ${frame}`;
}

/** Reads `R2·547` and `R2.547`; null for all else. */
export function parseFrameName(text: string): FrameName | null {
  const match = /^([^·.]+)[·.]([\d,]+)$/.exec(text.trim());
  const roll = match?.[1]?.trim() ?? '';
  const digits = match?.[2]?.replaceAll(',', '') ?? '';
  if (!isRollName(roll) || digits === '') return null;
  const frame = Number(digits);
  return frame <= FRAME_MAX ? { roll, frame } : null;
}

function headAndNumber(name: string): [string, bigint] {
  const head = name.replace(/\d+$/, '');
  return [head, BigInt(name.slice(head.length) || 0)];
}

/** The order in which people count rolls: R2 before R10. */
export function compareRolls(a: string, b: string): number {
  const [headA, numberA] = headAndNumber(a);
  const [headB, numberB] = headAndNumber(b);
  if (headA !== headB) return headA < headB ? -1 : 1;
  if (numberA !== numberB) return numberA < numberB ? -1 : 1;
  return a === b ? 0 : a < b ? -1 : 1;
}
