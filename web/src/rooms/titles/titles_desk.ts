// What stands between the Titles room and the program.
import type { StandReckoned } from './stand_reckoned';
import type { Card, TitleChange, Titles, TitleWords } from './title_types';

/** What the room needs of the film whose titles they are. */
export interface TitlesDesk {
  load(): Promise<Titles>;
  /** How a title is set, measured and exposed; it need not be kept. */
  card(title: TitleWords, signal?: AbortSignal): Promise<Card>;
  /**
   * The card as a picture: as frame `at` of it shows it, or with all of its lettering.
   * Its address; null where the program draws none.
   */
  drawn(
    title: TitleWords,
    width: number,
    at: number | null,
    signal?: AbortSignal,
  ): Promise<string | null>;
  /** A picture is not needed any more. */
  letGo(address: string): void;
  /** The copy stand reckoned; null where the program does not. */
  stand(): Promise<StandReckoned | null>;
  /** The revision that it led to. */
  change(change: TitleChange, seen: number): Promise<number>;
  /** Keeps a picture or a typeface with the film; by what a title names it. */
  keepFile(file: File): Promise<string>;
  /** A card in a version stands for so many frames; positions are counted from 1. */
  letStand(cut: string, position: number, frames: number): Promise<void>;
  /** Lays a card to shoot into a version, before its first piece or behind its last. */
  layInto(cut: string, where: 'head' | 'tail', title: string, frames: number): Promise<void>;
}
