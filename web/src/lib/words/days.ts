// Days as one says them: `3 March`, with the year when it is another.
import { clockTime } from './clock_time';

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
];

function said(year: number, month: number, day: number, now: Date): string {
  const name = MONTHS[month] ?? '';
  return year === now.getFullYear() ? `${day} ${name}` : `${day} ${name} ${year}`;
}

/** The day on which something was made, by the clock of this place. */
export function dayOf(made: string, now = new Date()): string {
  const at = new Date(made);
  if (Number.isNaN(at.getTime())) return '';
  return said(at.getFullYear(), at.getMonth(), at.getDate(), now);
}

/** When something was made: `today at 14:02`, `on 25 November at 09:30`. */
export function dayAndTime(at: Date, now: Date): string {
  if (Number.isNaN(at.getTime())) return 'at a time that is not known';
  const isToday = at.toDateString() === now.toDateString();
  const day = isToday ? 'today' : `on ${dayOf(at.toISOString(), now)}`;
  return `${day} at ${clockTime(at)}`;
}

/** A day out of the ledger, `2026-03-03`; what is none is shown as it stands. */
export function dayWords(day: string, now = new Date()): string {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (!parts) return day;
  return said(Number(parts[1]), Number(parts[2]) - 1, Number(parts[3]), now);
}

/** Today as the ledger writes it, by the clock of this place. */
export function today(now = new Date()): string {
  const two = (part: number) => String(part).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}
