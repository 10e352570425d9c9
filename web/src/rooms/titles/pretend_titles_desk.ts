// Titles without the program, for stories and tests: it keeps what it is told and reckons
// as story 10 of the job does.
import { boatLines, boatStand, boatTitles } from './boat_titles';
import { countWords } from './word_count';
import { pretendDrawn } from './pretend_drawn';
import type { StandReckoned } from './stand_reckoned';
import type { Card, CardRun, TitleChange, TitleKept, Titles, TitleWords } from './title_types';
import type { TitlesDesk } from './titles_desk';

const SPEED = 18;

export class PretendTitlesDesk implements TitlesDesk {
  readonly changes: { change: TitleChange; seen: number }[] = [];
  readonly cutChanges: string[] = [];
  /** What the next change is refused with. */
  refuse: Error | null = null;
  /** Laid over every card. */
  cardIs: Partial<Card> = {};
  drawings = 0;

  constructor(
    readonly titles: Titles = boatTitles(),
    private readonly reckoned: StandReckoned | null = boatStand(),
  ) {}

  load(): Promise<Titles> {
    return Promise.resolve(structuredClone(this.titles));
  }

  card(title: TitleWords): Promise<Card> {
    const words = countWords(title.words);
    const by_rule = this.hold(words);
    const hold = title.shooting.hold ?? by_rule;
    const frames = title.shooting.before + hold + title.shooting.after;
    return Promise.resolve({
      words,
      by_rule,
      hold,
      letters:
        words === 0
          ? null
          : {
              lines: title.words.split('\n'),
              words,
              capitals: 84,
              small: 58,
              on_art_mm: '10.3',
              on_screen_mm: '55.3',
              needed_on_screen_mm: '29.1',
              needed_on_art_mm: '5.4',
              last_row_reads: true,
            },
      contrast:
        words === 0
          ? null
          : {
              least_tenths: 124,
              usual_tenths: 131,
              asked_tenths: 45,
              enough: true,
              least_at: [300, 500, 180, 90],
              remedies: [],
            },
      shown: [33, 25, 933, 950],
      safe: [127, 120, 747, 760],
      runs: runsOf(title, hold),
      frames,
      sheet: {
        frames,
        parts: [title.shooting.before, hold, title.shooting.after],
        seconds: frames / SPEED,
        passes: 1,
        lines: boatLines(title.shooting, hold),
        need: {
          takes: title.shooting.takes,
          frames_each: frames + 24,
          frames: (frames + 24) * title.shooting.takes,
          footage: null,
          wound_back: 0,
        },
        single_over_running_stops: null,
        warnings: [],
        cautions: [],
        plates: [],
        sums: [],
        taken: [],
        text: '',
      },
      problems: [],
      ...this.cardIs,
    });
  }

  drawn(title: TitleWords, _width: number, at: number | null): Promise<string | null> {
    this.drawings += 1;
    const { before } = title.shooting;
    const hold = title.shooting.hold ?? this.hold(countWords(title.words));
    const lettered = at === null || (at >= before && at < before + hold) ? 1 : 0;
    return Promise.resolve(pretendDrawn(title, lettered));
  }

  letGo = (): void => undefined;
  stand = (): Promise<StandReckoned | null> => Promise.resolve(this.reckoned);
  keepFile = (file: File): Promise<string> => Promise.resolve(file.name);

  change(change: TitleChange, seen: number): Promise<number> {
    if (this.refuse) return Promise.reject(this.refuse);
    this.changes.push({ change, seen });
    this.titles.revision += 1;
    this.put(change);
    return Promise.resolve(this.titles.revision);
  }

  letStand(cut: string, position: number, frames: number): Promise<void> {
    this.cutChanges.push(`${cut} ${String(position)} ${String(frames)}`);
    return Promise.resolve();
  }

  layInto(cut: string, where: 'head' | 'tail', title: string, frames: number): Promise<void> {
    this.cutChanges.push(`${cut} ${where} ${title} ${String(frames)}`);
    return Promise.resolve();
  }

  private hold(words: number): number {
    return words === 0 ? 0 : Math.ceil(Math.max(2.5, 1 + 0.5 * words) * SPEED);
  }

  private put({ id, after, to }: TitleChange): void {
    const { titles } = this;
    if (to.what === 'stand') {
      titles.stand = to.stand;
      return;
    }
    const old = titles.titles.find((one) => one.id === id);
    const rest = titles.titles.filter((one) => one.id !== id);
    if (to.what === 'gone') {
      titles.titles = rest;
      return;
    }
    if (to.what === 'title' && old) {
      Object.assign(old, this.keptOf(old.id, to.title));
      return;
    }
    const newId = Math.max(0, ...titles.titles.map((one) => one.id)) + 1;
    const put = to.what === 'title' ? this.keptOf(newId, to.title) : old;
    const behind = after === 0 ? -1 : rest.findIndex((one) => one.id === after);
    const at = after == null ? rest.length : behind + 1;
    if (put) titles.titles = [...rest.slice(0, at), put, ...rest.slice(at)];
  }

  private keptOf(id: number, title: TitleWords): TitleKept {
    const words = countWords(title.words);
    const by_rule = this.hold(words);
    const hold = title.shooting.hold ?? by_rule;
    const whole = title.shooting.before + hold + title.shooting.after;
    const name = title.name || `T${String(id)}`;
    return {
      id,
      title: { ...title, name },
      words,
      by_rule,
      hold,
      whole,
      of_roll: whole * title.shooting.takes,
      photographed: 0,
      stands: [],
      problems: [],
      drawn: JSON.stringify(title),
    };
  }
}

/** Three runs: the ground, the lettering, the ground. */
function runsOf(title: TitleWords, hold: number): CardRun[] {
  const { before, after } = title.shooting;
  const runs = [
    { frames: before, picture: 0 },
    { frames: hold, picture: before },
    { frames: after, picture: before === 0 ? before + hold : 0 },
  ];
  return runs.filter((run) => run.frames > 0);
}
