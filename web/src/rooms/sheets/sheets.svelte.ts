// The printed sheets of a version: which, on what paper, and what came of it.
import { Refused, problemOf, type Server, told } from '$lib/api/server';
import type { Problem, SheetLook } from '$lib/api/wire';

export const SHEETS = [
  { value: 'pull-list', words: 'Pull list' },
  { value: 'cutting-sheet', words: 'Cutting sheet' },
] as const;
export type SheetName = (typeof SHEETS)[number]['value'];

export const PAPERS = [
  { value: 'a4', words: 'A4' },
  { value: 'letter', words: 'Letter' },
] as const;
export type PaperName = (typeof PAPERS)[number]['value'];

/** Where a printed sheet lies on the server. */
export function sheetAddress(
  film: string,
  cut: string,
  sheet: SheetName,
  what: string,
  paper: PaperName,
  revision: number,
): string {
  const path = [film, cut].map(encodeURIComponent);
  return `/api/films/${path[0]}/cuts/${path[1]}/sheets/${sheet}/${what}?paper=${paper}&of=${revision}`;
}

export class SheetsOnTable {
  sheet = $state<SheetName>('pull-list');
  paper = $state<PaperName>('a4');
  look = $state.raw<SheetLook | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** The strand check refuses the version: nothing can be printed. */
  refused = $state(false);
  printing = $state(false);
  private asked = 0;

  constructor(
    private readonly server: Server,
    readonly film: string,
    readonly cut: string,
  ) {}

  /** Prints what is chosen. */
  async print(): Promise<void> {
    const mine = ++this.asked;
    const { film, cut, sheet, paper } = this;
    this.printing = true;
    this.problem = null;
    this.refused = false;
    try {
      const params = { path: { film, cut, sheet }, query: { paper } };
      const look = await told(
        this.server.GET('/api/films/{film}/cuts/{cut}/sheets/{sheet}', { params }),
      );
      if (mine === this.asked) this.look = look;
    } catch (why) {
      if (mine !== this.asked) return;
      this.look = null;
      this.problem = problemOf(why);
      this.refused = why instanceof Refused && why.problem.code === 'production.cut_refused';
    } finally {
      if (mine === this.asked) this.printing = false;
    }
  }

  /** The addresses of the pages, in order. */
  get pages(): string[] {
    const { look } = this;
    if (!look) return [];
    return Array.from({ length: look.pages }, (_, index) => this.address(`pages/${index + 1}`));
  }

  address(what: string): string {
    return sheetAddress(
      this.film,
      this.cut,
      this.sheet,
      what,
      this.paper,
      this.look?.revision ?? 0,
    );
  }
}
