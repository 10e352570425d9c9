// When something was made, as one says it: today at a time, or on a day.
import { clockTime } from '../../page/clock_time';

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

/** `today at 14:02`, `on 25 November at 9:30`, with the year when it is another. */
export function dayAndTime(at: Date, now: Date): string {
  if (Number.isNaN(at.getTime())) return 'at a time that is not known';
  const time = clockTime(at);
  if (at.toDateString() === now.toDateString()) return `today at ${time}`;
  const year = at.getFullYear() === now.getFullYear() ? '' : ` ${at.getFullYear()}`;
  return `on ${at.getDate()} ${MONTHS[at.getMonth()]}${year} at ${time}`;
}
