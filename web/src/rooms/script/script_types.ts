// The documents of the script under short names.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type Script = Schemas['ScriptDocument'];
export type SceneKept = Schemas['SceneDocument'];
export type Scene = Schemas['SceneWords'];
export type Action = Schemas['ActionWords'];
export type SetupKept = Schemas['SetupDocument'];
export type Setup = Schemas['SetupWords'];
export type Shown = Schemas['ShownWords'];
export type LinedTake = Schemas['LinedTakeDocument'];
export type Coverage = Schemas['CoverageDocument'];
export type ActionCover = Schemas['ActionCoverDocument'];
export type Stock = Schemas['StockWords'];
export type Plan = Schemas['PlanDocument'];
export type PackedRoll = Schemas['PackedRollDocument'];
export type Retake = Schemas['RetakeDocument'];
export type OneMore = Schemas['OneMoreTakeDocument'];
export type InCamera = Schemas['InCameraDocument'];
export type WildSound = Schemas['WildSoundWords'];
export type WildSoundKept = Schemas['WildSoundDocument'];
export type FloorPlan = Schemas['FloorPlanWords'];
export type FloorPlanKept = Schemas['FloorPlanDocument'];
export type Recce = Schemas['RecceWords'];
export type RecceKept = Schemas['RecceDocument'];
export type ScriptPart = Schemas['ScriptChangeKind'];
export type ScriptChange = Schemas['ScriptChange'];
export type Imported = Schemas['ScriptImported'];
export type PlanProblem = Schemas['PlanProblemDocument'];
