// The titles of the example film with figures such as the program gives, for stories and
// tests: story 10 of the job, on a Super 8 gate measured at 5.69 × 4.22 mm.
import { blankTitle } from './blank_title';
import type { StandReckoned } from './stand_reckoned';
import type { SheetLine, Shooting, StandWords, TitleKept, Titles, TitleWords } from './title_types';

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

/** Evenness of two lamps at 45° and 800 mm: the side + 0.07 stop, the corner + 0.04. */
function evenness(): number[][] {
  return [-1, -0.5, 0, 0.5, 1].map((down) =>
    [-1, -0.5, 0, 0.5, 1].map((across) => 0.07 * across ** 2 - 0.03 * down ** 2),
  );
}

const sum = (what: string, formula: string, figures: string, comes: string) => ({
  what,
  formula,
  figures,
  comes,
  source: 'thin lens',
});

export function boatStand(): StandReckoned {
  return {
    stand: BOAT_STAND,
    field: {
      gauge: 'super8',
      gate_mm: [5.69, 4.22],
      aperture_mm: [5.31, 4.01],
      lens_mm: 25,
      dioptres: 0,
      focus_mm: 1079.5,
      magnification: 0.023708,
      subject_mm: 1079.48,
      film_to_subject_mm: 1105.07,
      image_mm: 25.593,
      exposure_stops: 0.068,
      field_mm: [240, 178],
      shown_mm: [223.97, 169.14],
      safe_mm: [179.18, 135.31],
      safe_percent: 80,
      near_mm: 963.8,
      far_mm: 1226.7,
      circle_mm: 0.0127,
      letters: [],
      plates: [
        { label: 'distance', count: '1079.5', words: 'mm from the lens' },
        { label: 'field', count: '240.0 × 178.0 mm', words: 'the camera takes in' },
        { label: 'shown', count: '224.0 × 169.1 mm', words: 'on the screen' },
        { label: 'safe', count: '179.2 × 135.3 mm', words: 'for lettering' },
        { label: 'light', count: '+0.07', words: 'stops to open' },
        { label: 'sharp', count: '964 to 1227', words: 'mm from the lens' },
      ],
      sums: [
        sum('size on the film', 'gate ÷ field', '5.69 ÷ 240', '0.02371'),
        sum('lens to artwork', 'lens × (1 + 1 ÷ size)', '25 × (1 + 1 ÷ 0.02371)', '1079.5 mm'),
        sum('lens to film', 'lens × (1 + size)', '25 × (1 + 0.02371)', '25.59 mm'),
      ],
      taken: ['the lens is taken as thin'],
      text: '25 mm lens: artwork 1079.5 mm from the lens',
    },
    light: {
      angle_degrees: 45,
      distance_mm: 800,
      field_mm: [240, 178],
      edge_stops: 0.07,
      top_stops: -0.027,
      corner_stops: 0.041,
      spread_stops: 0.097,
      even: true,
      map: evenness(),
      lamps_mm: [
        [-565.7, 0, 565.7],
        [565.7, 0, 565.7],
      ],
      glare: null,
      cautions: [],
      plates: [
        { label: 'side edge', count: '+0.07', words: 'stop against the middle' },
        { label: 'corner', count: '+0.04', words: 'stop against the middle' },
      ],
      sums: [sum('lamps', 'distance × sin(angle)', '800 mm at 45°', '565.7 mm out')],
      taken: [],
      text: '2 lamps at 45° and 800 mm',
    },
    problems: [],
  };
}

/** The lines of a plain card: the ground with the blank cel, the lettered one, the blank one. */
export function boatLines({ before, after }: Shooting, hold: number): SheetLine[] {
  let from = 0;
  const line = (frames: number, cel_1: string): SheetLine => {
    from += frames;
    return {
      pass: 1,
      from: from - frames,
      to: from,
      background: 'ground',
      cel_1,
      cel_2: 'none',
      art_mm: [0, 0],
      art_step_mm: [0, 0],
      letters_mm: [0, 0],
      letters_step_mm: [0, 0],
      stops: 0,
      part: 1,
      exposing: 'running',
      iris_stops: 0,
      note: '',
    };
  };
  return [line(before, 'blank'), line(hold, 'lettered'), line(after, 'blank')].filter(
    (one) => one.to > one.from,
  );
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
