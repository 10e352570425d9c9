// New columns and cues, as they stand before anything is written in them.
import type { Anchor, ColumnWords, CueWords } from './dub_types';

export function blankColumn(name: string): ColumnWords {
  return {
    name,
    gain: 0,
    silent: false,
    low_cut: null,
    lows: 0,
    presence: 0,
    highs: 0,
    compressor: null,
    ducked: null,
    tape: '',
  };
}

const NO_FADE = { frames: 0, shape: 'equal_power' as const };

export function blankCue(column: number, start: Anchor, sound: number | null): CueWords {
  return {
    column,
    sound,
    name: '',
    speech: '',
    start,
    end: null,
    // By hand it lasts as long as it is written, at first a second or so; else as its sound.
    frames: sound === null ? 18 : null,
    from: 0,
    to: null,
    looped: false,
    level: 0,
    line: [],
    fade_in: NO_FADE,
    fade_out: NO_FADE,
    balance: 0,
    stroke: false,
    note: '',
    laid: null,
    left: false,
  };
}

/** The columns that a first chart is ruled with; each is renamed or thrown out at will. */
export const FIRST_COLUMNS = ['voice', 'atmosphere', 'effects', 'music'] as const;
