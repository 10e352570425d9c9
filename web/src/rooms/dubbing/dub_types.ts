// The documents of the sound under short names.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type Dub = Schemas['DubDocument'];
export type Cue = Schemas['CueDocument'];
export type CueWords = Schemas['CueWords'];
export type CueState = Schemas['CueStateWord'];
export type CueProposal = Schemas['CueProposalDocument'];
export type Anchor = Schemas['AnchorWords'];
export type LevelPoint = Schemas['LevelPointWords'];
export type Column = Schemas['ColumnDocument'];
export type ColumnWords = Schemas['ColumnWords'];
export type Sound = Schemas['SoundDocument'];
export type SoundWords = Schemas['SoundWords'];
export type PieceOnChart = Schemas['PieceOnChartDocument'];
export type JoinHeard = Schemas['JoinHeardDocument'];
export type HandScore = Schemas['HandScoreDocument'];
export type HandMove = Schemas['HandMoveDocument'];
export type MixLoudness = Schemas['LoudnessDocument'];
export type MixWords = Schemas['MixWords'];
export type RightState = Schemas['RightStateWord'];
export type Pass = Schemas['PassDocument'];
export type PassWords = Schemas['PassWords'];
export type DubChange = Schemas['DubChange'];
export type MusicBeside = Schemas['MusicDocument'];
