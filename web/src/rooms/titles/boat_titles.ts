// The titles of the example film with figures such as the program gives, for stories and
// tests: story 10 of the job, on a Super 8 gate measured at 5.69 × 4.22 mm.
import { blankTitle } from './blank_title';
import type { StandReckoned } from './stand_reckoned';
import type { StandWords, TitleKept, Titles, TitleWords } from './title_types';

export const BOAT_STAND: StandWords = {
  rule: 'own',
  least: '2.5',
  first: '1',
  per_word: '0.5',
  lens: '25',
  gate: '5.69x4.22',
  width: '240',
  distance: '',
  closest: '',
  close_up: '',
  stop: '5.6',
  blur: '0.0127',
  lamp_angle: '45',
  lamp_distance: '800',
  glass: false,
  cel_density: '0.04',
  running_time: '',
  single_time: '',
  last_row: '5',
  screen: '1200',
  safe: 80,
};

/** A sixteenth of a row of the field's evenness; symmetric, the corner + 0.04, the side + 0.07. */
function evenness(): number[][] {
  return [-1, -0.5, 0, 0.5, 1].map((down) =>
    [-1, -0.5, 0, 0.5, 1].map((across) => 0.07 * across ** 2 - 0.03 * down ** 2),
  );
}

export function boatStand(): StandReckoned {
  const sum = (what: string, formula: string, figures: string, comes: string) => ({
    what,
    formula,
    figures,
    comes,
    source: 'thin lens',
  });
  return {
    gate: [5.69, 4.22],
    field: [240, 178],
    shown: [224, 169.1],
    safe: [179.2, 135.3],
    magnification: 0.02371,
    distance: 1079.5,
    image: 25.59,
    lens: 25,
    stops: 0.07,
    sharp: [964, 1227],
    lamps: {
      angle: 45,
      distance: 800,
      edge: 0.07,
      corner: 0.04,
      map: evenness(),
      glare: 'a gloss may tip up to 16.3° before it throws a lamp into the lens',
    },
    letters: { screen: 29.1, art: 5.4 },
    sums: [
      sum('magnification', 'gate ÷ field', '5.69 ÷ 240', '0.02371'),
      sum('distance', 'lens × (1 + 1 ÷ magnification)', '25 × (1 + 1 ÷ 0.02371)', '1,079.5 mm'),
      sum('image distance', 'lens × (1 + magnification)', '25 × 1.02371', '25.59 mm'),
      sum('light lost', '2 × log₂(1 + magnification)', '2 × log₂ 1.02371', '+ 0.07 stop'),
      sum('letters on the screen', '2 × last row × tan 10′', '2 × 5,000 × tan 10′', '29.1 mm'),
    ],
    problems: [],
  };
}

function boatTitle(
  id: number,
  words: number,
  hold: number,
  title: Partial<TitleWords> & { name: string },
  more: Partial<TitleKept> = {},
): TitleKept {
  const all = { ...blankTitle(), ...title };
  const whole = all.shooting.before + hold + all.shooting.after;
  return {
    id,
    title: all,
    words,
    by_rule: hold,
    hold,
    whole,
    of_roll: whole * all.shooting.takes,
    photographed: 0,
    stands: [],
    problems: [],
    drawn: `d${String(id)}`,
    ...more,
  };
}

const SHOOTING = blankTitle().shooting;
const LETTERING = blankTitle().lettering;

export function boatTitles(): Titles {
  const titles = [
    boatTitle(
      1,
      12,
      126,
      {
        name: 'M',
        kind: 'main',
        words: 'The Ten-Past Boat\na film of one morning\nfor whoever waits',
        ground: { kind: 'frame', light: 0, picture: '', frame: 'R1·120', darker: 0 },
        shooting: { ...SHOOTING, before: 36, after: 18, takes: 2 },
      },
      { stands: [{ cut: 'v1', position: 1, frames: 180, agrees: true }] },
    ),
    boatTitle(2, 4, 54, {
      name: 'T1',
      words: 'Ten past, every day.',
      lettering: { ...LETTERING, design: 'silent' },
    }),
    boatTitle(
      3,
      2,
      45,
      {
        name: 'E',
        kind: 'end',
        words: 'The End',
        lettering: { ...LETTERING, design: 'silent' },
        shooting: { ...SHOOTING, after: 36, fade_out: 24 },
      },
      {
        stands: [{ cut: 'v1', position: 23, frames: 90, agrees: false }],
        problems: [
          {
            what: 'at position 23 of v1 it stands for 90 frames, and its sheet exposes 81',
            next: 'let the card in v1 stand for 81, or change the title',
            refused: false,
          },
        ],
      },
    ),
  ];
  return {
    revision: 12,
    titles,
    whole: 315,
    of_roll: 495,
    without_title: ['T7'],
    stand: BOAT_STAND,
    designs: [
      ['brush', 'Brush', 'letters of a quick brush: films of children, holidays'],
      ['transfer', 'Transfer letters', 'rubbed on, neat: films of work'],
      ['chalk', 'Chalk', 'on a slate: school and street'],
      ['paper', 'Cut paper', 'cut with scissors: comedies'],
      ['typewriter', 'Typewriter', 'typed: reports, letters'],
      ['silent', 'Silent film', 'with a line round it: intertitles'],
      ['lantern', 'Lantern slide', 'old and quiet'],
      ['poster', 'Poster', 'tall and narrow'],
    ].map(([word = '', name = '', about = '']) => ({ word, name, about })),
    rules: [
      {
        word: 'own',
        says: 'the longer of 2.5 s and 1 s + 0.5 s a word',
        source: 'our own, after the amateurs’ rule to hold a title until it is read twice',
      },
      {
        word: 'wpm160',
        says: '160 words a minute',
        source: 'subtitles not over 160 to 180 words a minute: a regulator’s guidance',
      },
    ],
  };
}
