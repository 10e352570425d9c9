// What is found with the film in the hand: its state, a hundred frames and the
// reel on the ruler, joins that are there already. Each is kept as it is written.
import { problemWords } from '$lib/api/problem_words';
import { problemOf } from '$lib/api/server';
import type { FilmChange, Kept, RollLog } from '$lib/api/wire';
import { parseGrouped } from '$lib/film/grouped';

type Inspection = RollLog['inspection'];
type Condition = Required<Inspection['condition']>;
export type ConditionName = keyof Condition;

/** The lines of the state of a roll, as they stand on paper. */
export const STATE_LINES: readonly { name: ConditionName; label: string; hint?: string }[] = [
  { name: 'picture', label: 'picture', hint: 'colour, black and white, toned' },
  { name: 'fading', label: 'fading', hint: 'holds, faded, turned red' },
  { name: 'warping', label: 'how flat it lies', hint: 'flat, cupped, curled, twisted' },
  { name: 'perforations', label: 'perforations', hint: 'whole, nicked, torn, repaired' },
  { name: 'scratches', label: 'scratches', hint: 'none, base, emulsion, both' },
  { name: 'sound', label: 'sound on it', hint: 'none, magnetic, optical' },
  { name: 'acid', label: 'acid strip, 0 to 3' },
  { name: 'by', label: 'looked at by, on' },
];

export const VINEGAR = [
  { value: '', words: 'nobody smelt' },
  { value: 'none', words: 'none' },
  { value: 'slight', words: 'slight' },
  { value: 'strong', words: 'strong' },
] as const;

export const LIES = [
  { value: 'heads', words: 'heads out' },
  { value: 'tails', words: 'tails out' },
  { value: '', words: 'not known' },
] as const;

export const JOIN_KINDS = [
  { value: 'tape', words: 'tape' },
  { value: 'cement', words: 'cement' },
  { value: 'weld', words: 'weld' },
  { value: 'not-known', words: 'not known' },
] as const;

export type JoinKindWord = (typeof JOIN_KINDS)[number]['value'];
export type Vinegar = (typeof VINEGAR)[number]['value'];
export type Lies = (typeof LIES)[number]['value'];

function oneOf<Value extends string>(
  choices: readonly { readonly value: Value }[],
  word: string | undefined,
  otherwise: Value,
): Value {
  return choices.find((one) => one.value === word)?.value ?? otherwise;
}

export interface InHandDesk {
  change(change: FilmChange, seen: number): Promise<Kept>;
}

const NOTHING: Condition = {
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
};

export class InHand {
  accession = $state('');
  lies = $state<Lies>('');
  vinegar = $state<Vinegar>('');
  condition = $state<Condition>(NOTHING);
  hundred = $state('');
  across = $state('');
  hub = $state('');
  thickness = $state('');
  joinFrame = $state('');
  joinKind = $state<JoinKindWord>('cement');
  joinNote = $state('');
  edgeFrame = $state('');
  edgeNumber = $state('');
  /** Frames from one number on the edge to the next, as the user counts them. */
  edgeStep = $state('');
  /** What was refused, and where: beside the part it belongs to. */
  problem = $state.raw<{ readonly of: Part; readonly words: string } | null>(null);

  constructor(
    private readonly desk: InHandDesk,
    private readonly log: () => RollLog,
    frame: number,
  ) {
    const { inspection } = log();
    this.accession = inspection.accession;
    this.lies = oneOf(LIES, inspection.lies, '');
    this.condition = { ...NOTHING, ...inspection.condition };
    this.vinegar = oneOf(VINEGAR, inspection.condition.vinegar, '');
    this.hundred = inspection.hundred.mm ?? '';
    const measured = inspection.wound?.measured;
    this.across = measured?.across_mm ?? '';
    this.hub = measured?.hub_mm ?? '';
    this.thickness = measured?.thickness_mm ?? '';
    // Joins are found where one is.
    this.joinFrame = frame > 0 ? String(frame) : '';
    this.edgeFrame = String(frame);
    this.edgeStep = inspection.edge.step ? String(inspection.edge.step) : '';
  }

  private get roll(): string {
    return this.log().roll.roll;
  }

  keepState(): Promise<boolean> {
    const condition = { ...this.condition, vinegar: this.vinegar };
    const { roll, accession, lies } = this;
    return this.keep('state', { film_change: 'inspect_roll', roll, accession, lies, condition });
  }

  /** A hundred frames on the ruler: shrinkage and the length expected follow from it. */
  keepHundred(): Promise<boolean> {
    const mm = this.hundred.trim() || null;
    return this.keep('hundred', { film_change: 'measure_hundred', roll: this.roll, mm });
  }

  keepWound(): Promise<boolean> {
    const across_mm = this.across.trim();
    const hub_mm = this.hub.trim();
    const none = across_mm === '' && hub_mm === '';
    const wound = none ? null : { across_mm, hub_mm, thickness_mm: this.thickness.trim() || null };
    return this.keep('wound', { film_change: 'measure_wound', roll: this.roll, wound });
  }

  async keepJoin(): Promise<boolean> {
    const frame = parseGrouped(this.joinFrame);
    if (frame === null) {
      this.problem = { of: 'join', words: 'Say the first frame after the join, such as 1,402.' };
      return false;
    }
    const { roll, joinKind: kind } = this;
    const note = this.joinNote.trim();
    const kept = await this.keep('join', { film_change: 'join_found', roll, frame, kind, note });
    if (kept) this.joinFrame = this.joinNote = '';
    return kept;
  }

  joinGone(frame: number): Promise<boolean> {
    return this.keep('join', { film_change: 'join_gone', roll: this.roll, frame });
  }

  async keepEdge(): Promise<boolean> {
    const frame = parseGrouped(this.edgeFrame);
    const number = this.edgeNumber.trim();
    if (frame === null || number === '') {
      this.problem = { of: 'edge', words: 'Say the frame and the number as it stands there.' };
      return false;
    }
    const step = this.edgeStep.trim() === '' ? null : parseGrouped(this.edgeStep);
    if (step === null && this.edgeStep.trim() !== '') {
      this.problem = { of: 'edge', words: 'The step is a number of frames, such as 20 or 40.' };
      return false;
    }
    const { roll } = this;
    const kept = await this.keep('edge', {
      film_change: 'edge_number_read',
      roll,
      frame,
      number,
      step,
    });
    if (kept) this.edgeFrame = this.edgeNumber = '';
    return kept;
  }

  edgeGone(frame: number): Promise<boolean> {
    return this.keep('edge', { film_change: 'edge_number_gone', roll: this.roll, frame });
  }

  private async keep(of: Part, change: FilmChange): Promise<boolean> {
    this.problem = null;
    try {
      await this.desk.change(change, this.log().revision);
      return true;
    } catch (why) {
      this.problem = { of, words: problemWords(problemOf(why)) };
      return false;
    }
  }
}

export type Part = 'state' | 'hundred' | 'wound' | 'join' | 'edge';
