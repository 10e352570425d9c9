// The documents of the titles under short names.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type Titles = Schemas['TitlesDocument'];
export type TitleKept = Schemas['TitleDocument'];
export type TitleWords = Schemas['TitleWords'];
export type TitleKind = Schemas['TitleKindWord'];
export type Lettering = Schemas['LetteringWords'];
export type Ground = Schemas['TitleGroundWords'];
export type Shooting = Schemas['ShootingWords'];
export type StandWords = Schemas['StandWords'];
export type TitleStands = Schemas['TitleStandsDocument'];
export type TitleProblem = Schemas['TitleProblemDocument'];
export type CardDesign = Schemas['CardDesignDocument'];
export type ReadingRule = Schemas['ReadingRuleDocument'];
export type Card = Schemas['TitleCardDocument'];
export type CardRun = Schemas['CardRunDocument'];
export type ArtMove = Schemas['ArtMoveWords'];
export type SheetLine = Schemas['ExposureLineDocument'];
export type Contrast = Schemas['CardContrastDocument'];
export type Remedy = Schemas['ContrastRemedyDocument'];
export type TitleChange = Schemas['TitleChange'];

/** Left, top, width and height in thousandths of what they lie in. */
export type Thousandths = readonly [number, number, number, number];

export function thousandths(of: readonly number[]): Thousandths {
  const [left = 0, top = 0, width = 0, height = 0] = of;
  return [left, top, width, height];
}
