// The calculators of the camera as data: what is asked, and what it is for.
// What comes of it is reckoned by the program.

/** The names stand in the addresses and commands too, but for `length`. */
export type CalculatorName =
  | 'field'
  | 'framing'
  | 'depth'
  | 'closeup'
  | 'exposure'
  | 'ev'
  | 'filter'
  | 'sun'
  | 'pan'
  | 'flash'
  | 'speed'
  | 'length'
  | 'wedge';

export interface Asked {
  readonly name: string;
  readonly label: string;
  /** What is first written there. */
  readonly usual: string;
  readonly hint?: string;
  /** A figure is read here, so that a slip is told before it is sent. */
  readonly kind: 'figure' | 'words' | 'choice';
  /** A list of figures: it has the whole width. */
  readonly wide?: boolean;
  readonly choices?: readonly string[];
  readonly optional?: boolean;
}

export interface Way {
  readonly value: string;
  readonly words: string;
  readonly asks: readonly string[];
}

export interface Calculator {
  readonly name: CalculatorName;
  /** On its button. */
  readonly words: string;
  /** Over its form. */
  readonly title: string;
  readonly help: string;
  readonly asks: readonly Asked[];
  /** Where one may know different things; the first is usual. */
  readonly ways?: readonly Way[];
  /** What stands over the ways. */
  readonly waysWords?: string;
  /** Nothing is asked before one of these is written. */
  readonly anyOf?: readonly string[];
  /** What is said while something is still to be written. */
  readonly waits?: string;
  /** What of the film is sent with it. */
  readonly film: readonly ('gauge' | 'speed' | 'set')[];
}

const figure = (name: string, label: string, usual: string, hint?: string): Asked => ({
  name,
  label,
  usual,
  kind: 'figure',
  ...(hint === undefined ? {} : { hint }),
});
const words = (name: string, label: string, usual: string, hint?: string): Asked => ({
  ...figure(name, label, usual, hint),
  kind: 'words',
});
const row = (name: string, label: string, usual: string, hint: string): Asked => ({
  ...words(name, label, usual, hint),
  wide: true,
});
const maybe = (asked: Asked): Asked => ({ ...asked, optional: true });

export const SIZES = ['long', 'full', 'medium', 'medium close', 'close', 'extreme close'] as const;

const lens = figure('lens_mm', 'Lens, mm', '12.5');
const distance = words('distance', 'Distance', '3m', 'From the lens: 3m, 80cm or 10ft.');

const LENSES: readonly Calculator[] = [
  {
    name: 'framing',
    words: 'Framing',
    title: 'Framing',
    help: 'Which lens and distance gives which view of a standing person.',
    film: ['gauge'],
    waysWords: 'I want to know',
    ways: [
      {
        value: 'distance',
        words: 'the distance',
        asks: ['size', 'height', 'lens_mm', 'person'],
      },
      { value: 'lens', words: 'the lens', asks: ['size', 'height', 'distance', 'person'] },
      { value: 'view', words: 'the view', asks: ['lens_mm', 'distance', 'person'] },
    ],
    asks: [
      { ...words('size', 'View', 'medium close'), kind: 'choice', choices: SIZES },
      lens,
      distance,
      words('person', 'The person is', '1.7m'),
      maybe(words('height', 'Or show a height of', '', 'Instead of the view: 65cm.')),
    ],
  },
  {
    name: 'field',
    words: 'Field',
    title: 'Field of view',
    help: 'How wide a lens looks, and how much of the place that is.',
    film: ['gauge'],
    asks: [lens, maybe(distance)],
  },
  {
    name: 'depth',
    words: 'Depth',
    title: 'Depth of field',
    help: 'From where to where it is sharp.',
    film: ['gauge'],
    asks: [
      lens,
      figure('stop', 'Stop, f/', '2.8'),
      words('distance', 'Focus', '3m'),
      maybe(words('nearest', 'Nearest mark on the lens', '')),
      maybe(figure('circle_mm', 'Smallest spot, mm', '', 'Empty: what is usual for the gauge.')),
    ],
  },
  {
    name: 'closeup',
    words: 'Close-up',
    title: 'Close-up lens',
    help: 'How far away it is sharp through a close-up lens, and how much fills the picture.',
    film: ['gauge'],
    asks: [
      lens,
      words('dioptres', 'Dioptres', '3', 'Of two before each other both: 1 2.'),
      maybe(words('focus', 'The lens is set to', '', 'Empty: infinity.')),
    ],
  },
];

const LIGHT: readonly Calculator[] = [
  {
    name: 'sun',
    words: 'Sun',
    title: 'Sun',
    help: 'Where the sun stands, when it rises and sets, when light is golden, and how much of the day is left.',
    waits: 'Write where it is: on most maps north and east stand at the edge.',
    film: [],
    asks: [
      words('latitude', 'North', '', "52.5 or 33°52'S."),
      words('longitude', 'East', '', "13.4 or 71°30'W."),
      words('date', 'Day', ''),
      words('hour', 'Hour', '15:00'),
      words('clock', 'Clock before Greenwich', '', '+1, or +2 in summer time.'),
      maybe(figure('golden_from', 'Golden from, degrees', '', 'Empty: −4.')),
      maybe(figure('golden_to', 'Golden to, degrees', '', 'Empty: 6.')),
    ],
  },
  {
    name: 'ev',
    words: 'Light and stop',
    title: 'Light and stop',
    help: 'Which stop for which light, or which light for which stop.',
    film: ['speed'],
    waysWords: 'The light is known by',
    ways: [
      { value: 'ev100', words: 'a meter', asks: ['ev100', 'iso', 'shutter', 'filter_stops'] },
      { value: 'lux', words: 'lux', asks: ['lux', 'iso', 'shutter', 'filter_stops'] },
      { value: 'stop', words: 'the stop', asks: ['stop', 'iso', 'shutter', 'filter_stops'] },
    ],
    asks: [
      figure('ev100', 'EV at ISO 100', '12'),
      figure('lux', 'Light, lux', '10000'),
      figure('stop', 'Stop, f/', '5.6'),
      figure('iso', 'Film, ISO', '50'),
      figure('shutter', 'Shutter, degrees', '150'),
      maybe(figure('filter_stops', 'Filters take, stops', '', 'An 85 takes 0.67.')),
    ],
  },
  {
    name: 'exposure',
    words: 'Exposure',
    title: 'Exposure time',
    help: 'How long a frame gets light, and what another speed changes.',
    film: ['speed'],
    asks: [
      figure('shutter', 'Shutter, degrees', '150'),
      maybe(figure('stop', 'Stop, f/', '')),
      maybe(words('was_speed', 'Against a speed of', '')),
    ],
  },
  {
    name: 'filter',
    words: 'Filter',
    title: 'Filter',
    help: 'Which filter turns the light there is into the light the film wants.',
    film: [],
    asks: [
      figure('from_kelvin', 'Light there is, K', '5500', 'Daylight 5500, lamps 3200.'),
      figure('to_kelvin', 'The film wants, K', '3400'),
    ],
  },
];

const MOVING: readonly Calculator[] = [
  {
    name: 'pan',
    words: 'Pan',
    title: 'Pan',
    help: 'How fast the camera may be turned before the picture stammers.',
    film: ['gauge', 'speed'],
    asks: [
      lens,
      maybe(figure('turn', 'Turn by, degrees', '90')),
      maybe(figure('frames_across', 'Frames across', '', 'Empty: 168, a rule to begin with.')),
    ],
  },
  {
    name: 'flash',
    words: 'Flash frame',
    title: 'Flash frame',
    help: 'How slowly the camera still ran when it made a frame too light.',
    film: ['speed'],
    asks: [figure('stops', 'Lighter by, stops', '1.2')],
  },
  {
    name: 'speed',
    words: 'True speed',
    title: 'True speed',
    help: 'How fast the camera really ran, counted in two ways off its own picture.',
    anyOf: ['bands', 'turns', 'swings'],
    waits: 'Film a lamp, and a turntable or a weight on a thread; count, and write it here.',
    film: ['set'],
    waysWords: 'Counted off',
    ways: [
      {
        value: 'turntable',
        words: 'a lamp and a turntable',
        asks: [
          'bands',
          'bands_frames',
          'mains',
          'bands_error',
          'turns',
          'turns_frames',
          'turntable',
          'turntable_error',
        ],
      },
      {
        value: 'pendulum',
        words: 'a lamp and a pendulum',
        asks: [
          'bands',
          'bands_frames',
          'mains',
          'bands_error',
          'swings',
          'swings_frames',
          'pendulum',
          'pendulum_error',
          'swing',
        ],
      },
    ],
    asks: [
      maybe(figure('bands', 'Bands of the lamp', '', 'Dark bands past one place.')),
      maybe(figure('bands_frames', 'in so many frames', '')),
      maybe(figure('mains', 'Mains, hertz', '50')),
      maybe(figure('bands_error', 'Bands may be off by', '', 'Empty: 1.')),
      maybe(figure('turns', 'Turns of the plate', '')),
      maybe(figure('turns_frames', 'in so many frames', '')),
      maybe(figure('turntable', 'Turns a minute', '', 'Empty: 33⅓.')),
      maybe(figure('turntable_error', 'Plate may be off, per cent', '', 'Empty: 0.5.')),
      maybe(figure('swings', 'Swings there and back', '')),
      maybe(figure('swings_frames', 'in so many frames', '')),
      maybe(words('pendulum', 'Length of the pendulum', '', 'Hand to middle of weight: 99.4cm.')),
      maybe(words('pendulum_error', 'Length may be off by', '', 'Empty: 5mm.')),
      maybe(figure('swing', 'Swing to one side, degrees', '5')),
    ],
  },
  {
    name: 'length',
    words: 'Length',
    title: 'Length and time',
    help: 'Feet, frames, metres and minutes of each other.',
    film: ['gauge', 'speed'],
    asks: [words('quantity', 'Length or time', '0:12', '37ft60, 2724fr, 2:31.3 or 15.24m.')],
  },
];

const TESTS: readonly Calculator[] = [
  {
    name: 'wedge',
    words: 'Exposure wedge',
    title: 'Exposure wedge',
    help: 'What the meter does wrong, read off takes of one grey card, each given more light.',
    waits: 'Write how each take was set against the meter, and how light it came out.',
    film: [],
    waysWords: 'The takes are',
    ways: [
      { value: 'typed', words: 'measured elsewhere', asks: ['set', 'light', 'right'] },
      {
        value: 'roll',
        words: 'on a roll of this film',
        asks: ['roll', 'first_take', 'set', 'right'],
      },
    ],
    asks: [
      { ...words('roll', 'Roll', ''), kind: 'choice' },
      maybe(figure('first_take', 'Begins with take', '1', 'Counted from the head of the roll.')),
      row('set', 'Set against the meter, stops', '-1 -0.5 0 0.5 1', '+ is more light.'),
      row(
        'light',
        'Light of the pictures, stops',
        '',
        'Against full light: -3.2 -2.5 x, x is clipped.',
      ),
      maybe(figure('right', 'Light of a right picture, stops', '', 'Empty: a grey card, −2.47.')),
    ],
  },
];

export const GROUPS: readonly { words: string; calculators: readonly Calculator[] }[] = [
  { words: 'Lens', calculators: LENSES },
  { words: 'Light', calculators: LIGHT },
  { words: 'Movement', calculators: MOVING },
  { words: 'Test', calculators: TESTS },
];

export const CALCULATORS: readonly Calculator[] = GROUPS.flatMap((group) => group.calculators);

export function calculator(name: CalculatorName): Calculator {
  const found = CALCULATORS.find((one) => one.name === name);
  if (!found) throw new Error(`there is no calculator ${name}`);
  return found;
}
