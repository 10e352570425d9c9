// The documents of the bench as the server gives them, under short names.

export interface BenchDocument {
  readonly revision: number;
  /** How many lines the log has: a tick says which it follows. */
  readonly lines: number;
  readonly on_the_bench?: OnTheBench | null;
  readonly versions: readonly BenchVersion[];
  readonly assumptions: readonly string[];
}

export interface BenchVersion {
  readonly name: string;
  readonly frames: number;
  readonly pieces: number;
  readonly join: string;
  readonly why_not?: string | null;
  readonly not_proved: readonly string[];
}

export interface CountOf {
  readonly done: number;
  readonly all: number;
}

export interface OnTheBench {
  readonly cut: string;
  readonly begun: string;
  readonly join: string;
  readonly pins_owned: number;
  readonly winding: string;
  readonly planned_frames: number;
  readonly frames: number;
  readonly reel_frames: number;
  readonly done: boolean;
  readonly roll?: Mounted | null;
  readonly wound: CountOf;
  readonly cuts: CountOf;
  readonly joins: CountOf;
  readonly pins_taken: CountOf;
  readonly minutes_left?: number | null;
  readonly times: BenchTimes;
  readonly pins: readonly Pin[];
  readonly acts: readonly BenchAct[];
  readonly waits?: BenchWait | null;
  readonly done_lines: readonly BenchLine[];
  readonly rolls: readonly BenchRoll[];
  readonly passed: readonly string[];
}

export interface Mounted {
  readonly roll: string;
  readonly stands: number;
  readonly frames: number;
  readonly lies: string;
}

/** Unit: seconds. */
export interface BenchTimes {
  readonly cut: number;
  readonly join: number;
  readonly mount: number;
  readonly foot: number;
  readonly learned_from: number;
}

export interface Pin {
  readonly pin: number;
  readonly hangs?: Hanging | null;
}

export interface Hanging {
  readonly position?: number | null;
  readonly last_position?: number | null;
  readonly take: string;
  readonly span: BenchSpan;
  readonly frames: number;
}

export interface BenchSpan {
  readonly roll: string;
  readonly in: number;
  readonly out: number;
}

export interface BenchAct {
  /** `mount`, `wind`, `cut`, `hang`, `join`, `unmount`. */
  readonly act: string;
  readonly number: number;
  readonly of: number;
  readonly title: string;
  readonly what: string;
  readonly destroys?: string | null;
  readonly tick: string;
  readonly then?: string | null;
  readonly roll?: string | null;
  readonly frame?: number | null;
  readonly wind: number;
  readonly position?: number | null;
  readonly last_position?: number | null;
  readonly span?: BenchSpan | null;
  readonly pin?: number | null;
  readonly join?: string | null;
  readonly outgoing?: FrameRef | null;
  readonly incoming?: FrameRef | null;
  readonly card?: FrameCard | null;
}

export interface FrameRef {
  readonly roll: string;
  readonly frame: number;
  readonly position?: number | null;
}

export interface FrameCard {
  /** `head` or `tail`. */
  readonly this_end: string;
  readonly frames: number;
  readonly goes: string;
  readonly head: CutPlace;
  readonly tail: CutPlace;
}

export interface CutPlace {
  readonly at: number;
  /** `cuts`, `cut_before` or `roll_ends`. */
  readonly blade: string;
  readonly kept: number;
  readonly thrown?: number | null;
  readonly thrown_in?: number | null;
  readonly eaten: number;
  readonly chain: readonly LandmarkCount[];
  readonly doubt: string;
  readonly from_other_cut?: LandmarkCount | null;
  readonly nearer?: LandmarkCount | null;
}

export interface LandmarkCount {
  readonly from: string;
  readonly kind: string;
  readonly at: number;
  readonly frames: number;
  readonly towards: string;
  readonly feet: number;
  readonly feet_frames: number;
  readonly mm: string;
}

export interface BenchWait {
  readonly roll: string;
  readonly why: string;
  readonly hint: string;
}

export interface BenchLine {
  readonly number: number;
  readonly at: string;
  readonly by: string;
  readonly kind: string;
  readonly words: string;
  readonly struck_by?: number | null;
  readonly can_be_struck: boolean;
}

export interface BenchRoll {
  readonly roll: string;
  readonly frames: number;
  readonly on_the_reel: number;
  readonly hanging: number;
  readonly left: number;
  readonly gone: number;
  readonly proved: boolean;
  readonly gone_ahead?: string | null;
}

export interface Meaning {
  readonly changes: boolean;
  readonly picture: readonly string[];
  readonly sound: readonly string[];
  readonly work: readonly string[];
  readonly frames_before: number;
  readonly frames_after: number;
}

export interface StripHistory {
  readonly frame: string;
  readonly now: string;
  readonly events: readonly {
    readonly line: number;
    readonly at: string;
    readonly words: string;
  }[];
  readonly words: string;
}

export type BenchWrite =
  | {
      bench: 'begin';
      cut: string;
      pins: number;
      tails: boolean;
      to_and_fro: boolean;
    }
  | { bench: 'tick'; lines: number }
  | { bench: 'happened'; lines: number; happened: Happened[] }
  | { bench: 'strike'; line: number; reason: string }
  | { bench: 'go_ahead'; roll: string; words: string }
  | { bench: 'plan_anew'; pins: number }
  | { bench: 'remark'; words: string }
  | { bench: 'take_off' };

export type Happened =
  | { happened: 'mounted'; roll: string }
  | { happened: 'unmounted' }
  | { happened: 'wound'; roll: string; to: number }
  | { happened: 'cut'; roll: string; before: number }
  | { happened: 'hung'; roll: string; frame: number; pin: number }
  | {
      happened: 'joined';
      roll: string | null;
      frame: number | null;
      position: number | null;
      join: string;
      laid: string;
    }
  | { happened: 'opened'; join: number }
  | { happened: 'torn'; roll: string; in: number; out: number }
  | { happened: 'let_go'; roll: string; in: number; out: number }
  | { happened: 'made_up'; roll: string; frame: number; reel: string };
