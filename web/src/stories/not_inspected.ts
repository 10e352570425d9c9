// An inspection for tests and stories: nobody has looked at the roll yet.
import type { RollLog } from '$lib/api/wire';

/** Nobody has had the roll in the hand yet. */
export const NOT_INSPECTED: RollLog['inspection'] = {
  accession: '',
  lies: '',
  condition: {
    picture: '',
    acid: '',
    vinegar: '',
    warping: '',
    perforations: '',
    scratches: '',
    fading: '',
    sound: '',
    by: '',
    note: '',
  },
  hundred: { mm: null, new_mm: '381', source: '', shrinkage: null },
  wound: null,
  joins: [],
  edge: { step: null, read: [], follow: 0 },
  on_reels: [],
  cautions: [],
};
