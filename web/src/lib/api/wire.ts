// The documents of the server under short names; their meaning stands in
// schema.d.ts, which is made from the server's own description.
import type { components } from './schema';

type Schemas = components['schemas'];

export type Problem = Schemas['ProblemDocument'];
export type ShelfDocument = Schemas['ShelfDocument'];
export type Shelved = Schemas['ShelvedDocument'];
export type NewFilm = Schemas['NewFilm'];
export type Reckoned = Schemas['ReckonedDocument'];
export type Film = Schemas['ProductionDocument'];
export type Gauge = Schemas['GaugeDocument'];
export type RollHead = Schemas['RollDocument'];
export type RollLog = Schemas['RollLogDocument'];
export type Take = Schemas['LoggedTakeDocument'];
export type TakeWords = Schemas['TakeWords'];
export type RollFacts = Schemas['RollFacts'];
export type Sign = Schemas['SignDocument'];
export type LogImported = Schemas['LogImported'];
export type CutHead = Schemas['CutHeadDocument'];
export type Cut = Schemas['CutDocument'];
export type Piece = Schemas['PieceDocument'];
export type PieceForm = Schemas['PieceForm'];
export type JoinRow = Schemas['JoinRowDocument'];
export type Compared = Schemas['ComparedDocument'];
export type ChangeLine = Schemas['ChangeLineDocument'];
export type Beside = Schemas['BesideDocument'];
export type Check = Schemas['CheckDocument'];
export type Conflict = Schemas['ConflictDocument'];
export type Remedy = Schemas['RemedyDocument'];
export type Question = Schemas['QuestionDocument'];
export type CutChange = Schemas['CutChange'];
export type FilmChange = Schemas['FilmChange'];
export type Kept = Schemas['KeptDocument'];
export type FilmNote = Schemas['NoteDocument'];
export type ShelfSummary = Schemas['ShelfRead'];
export type ShelfRow = Schemas['ShelfRow'];
export type ShelfForm = Schemas['ShelfForm'];
export type Job = Schemas['JobDocument'];
export type JobEvent = Schemas['EventDocument'];
export type Part = Schemas['PartDocument'];
export type Places = Schemas['PlacesDocument'];
export type Folder = Schemas['FolderDocument'];
export type FolderEntry = Schemas['EntryDocument'];
export type Match = Schemas['MatchDocument'];
export type BringIn = Schemas['BringIn'];
export type JournalLine = Schemas['JournalLine'];
export type SheetLook = Schemas['SheetDocument'];
