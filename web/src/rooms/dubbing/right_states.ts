// How a right in a sound may stand, in the words of the list of music and rights.
import type { RightState } from './dub_types';

export const RIGHT_STATES: readonly { value: RightState; words: string }[] = [
  { value: 'not_known', words: 'not known' },
  { value: 'asked', words: 'asked, no answer yet' },
  { value: 'granted', words: 'granted' },
  { value: 'not_needed', words: 'not needed: our own, or free' },
  { value: 'refused', words: 'refused' },
];
