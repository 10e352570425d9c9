// The documents of the bench under short names; their meaning stands in schema.d.ts.
import type { components } from '$lib/api/schema';

type Schemas = components['schemas'];

export type BenchDocument = Schemas['BenchRoomDocument'];
export type BenchVersion = Schemas['BenchVersionDocument'];
export type Remade = Schemas['RemadeDocument'];
export type CountOf = Schemas['CountOf'];
export type OnTheBench = Schemas['OnTheBenchDocument'];
export type BenchTimes = Schemas['BenchTimesDocument'];
export type Pin = Schemas['PinDocument'];
export type Hanging = Schemas['HangingDocument'];
export type BenchSpan = Schemas['SpanDocument'];
export type BenchAct = Schemas['BenchActDocument'];
export type FrameRef = Schemas['FrameRefDocument'];
export type FrameCard = Schemas['FrameCardDocument'];
export type CutPlace = Schemas['CutPlaceDocument'];
export type LandmarkCount = Schemas['LandmarkCountDocument'];
export type BenchWait = Schemas['BenchWaitDocument'];
export type BenchLine = Schemas['BenchLineDocument'];
export type BenchRoll = Schemas['BenchRollDocument'];
export type Meaning = Schemas['MeaningDocument'];
export type StripHistory = Schemas['StripHistoryDocument'];
export type BenchSetUp = Schemas['BenchSetUp'];
export type BenchWrite = Schemas['BenchWrite'];
export type Happened = Schemas['HappenedWords'];
