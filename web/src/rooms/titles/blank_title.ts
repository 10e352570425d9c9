// A title about which nothing is said yet; the program has the same beginning.
import type { TitleWords } from './title_types';

export function blankTitle(): TitleWords {
  return {
    name: '',
    kind: 'intertitle',
    words: '',
    lettering: {
      design: 'brush',
      letter_height: null,
      across: 'centre',
      down: 'middle',
      outline: null,
      shadow: null,
      plate: false,
      dark: false,
      face: '',
    },
    ground: { kind: 'plain', light: 0, picture: '', frame: '', darker: 0 },
    shooting: {
      hold: null,
      before: 0,
      after: 0,
      fade_in: 0,
      fade_out: 0,
      letters_in: 0,
      letters_out: 0,
      crawl: 0,
      dissolve_to: '',
      dissolve: 0,
      art_move: null,
      blank_cel: true,
      exposed_twice: false,
      single_frame: false,
      takes: 1,
    },
    note: '',
  };
}
