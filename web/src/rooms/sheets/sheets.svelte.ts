// The printed sheets of a version, or of the rolls: which, on what paper, and
// what came of it.
import { Refused, problemOf, type Server, told } from '$lib/api/server';
import type { Problem, SheetLook } from '$lib/api/wire';

export const PAPERS = [
  { value: 'a4', words: 'A4' },
  { value: 'letter', words: 'Letter' },
] as const;
export type PaperName = (typeof PAPERS)[number]['value'];

/** How the bench is, as far as it is said here; the rest is as kept with the film. */
export interface BenchSaid {
  readonly winding?: 'one_pass' | 'tails' | 'to_and_fro' | undefined;
  readonly pins?: number | undefined;
  readonly up?: 'base' | 'emulsion' | undefined;
  readonly head?: 'left' | 'right' | undefined;
  readonly lies?: 'heads' | 'tails' | undefined;
}

/** What of the bench a sheet follows; nothing for all others. */
const FOLLOWS: Readonly<Record<string, readonly (keyof BenchSaid)[]>> = {
  'work-order': ['winding', 'pins'],
  'frame-cards': ['winding', 'pins', 'up', 'head'],
  'pin-labels': ['winding', 'pins'],
  'reel-labels': ['lies'],
};

export function follows(sheet: string, what: keyof BenchSaid): boolean {
  return FOLLOWS[sheet]?.includes(what) ?? false;
}

type Said = { [What in keyof BenchSaid]?: NonNullable<BenchSaid[What]> };

/** What of the bench matters to a sheet. */
function mattersTo(sheet: string, bench: BenchSaid): Said {
  const said = Object.entries(bench).filter(
    ([what, value]) => value !== undefined && follows(sheet, what as keyof BenchSaid),
  );
  return Object.fromEntries(said) as Said;
}

function asQuery(sheet: string, bench: BenchSaid): string {
  const said = Object.entries(mattersTo(sheet, bench));
  return said.map(([what, value]) => `&${what}=${encodeURIComponent(String(value))}`).join('');
}

interface SheetChoice {
  readonly value: string;
  readonly words: string;
  /** Stands in a row of its own, with the others for the bench. */
  readonly forTheBench?: boolean;
  /** The words over a row of its own otherwise. */
  readonly row?: string;
}

/** What sheets are about, and where they lie on the server. */
export interface Subject {
  readonly sheets: readonly [SheetChoice, ...SheetChoice[]];
  /** Has a sheet printed. */
  ask(sheet: string, paper: PaperName, bench: BenchSaid): Promise<SheetLook>;
  /** The address of a page, or of the PDF, as it was printed at a revision. */
  address(
    sheet: string,
    what: string,
    paper: PaperName,
    revision: number,
    bench: BenchSaid,
  ): string;
  /** The address of the same as a table; null for what is for paper only. */
  table(sheet: string, revision: number, bench: BenchSaid): string | null;
}

/** The sheets of a version that are tables too; the others are for paper only. */
const TABLES: readonly string[] = ['cutting-sheet', 'lined-sheet', 'work-order', 'outs-list'];

/** The sheets of a version. */
export function ofVersion(server: Server, film: string, cut: string): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/cuts/${encodeURIComponent(cut)}/sheets`;
  return {
    sheets: [
      { value: 'pull-list', words: 'Pull list' },
      { value: 'cutting-sheet', words: 'Cutting sheet' },
      { value: 'lined-sheet', words: 'Lined for notes' },
      { value: 'work-order', words: 'Work order', forTheBench: true },
      { value: 'frame-cards', words: 'Frame cards', forTheBench: true },
      { value: 'pin-labels', words: 'Pin labels', forTheBench: true },
      { value: 'outs-list', words: 'Outs list', forTheBench: true },
      { value: 'joins-inspection', words: 'Joins', forTheBench: true },
      { value: 'reel-labels', words: 'Reel and can', forTheBench: true },
    ],
    ask: (sheet, paper, bench) => {
      const query = { paper, ...mattersTo(sheet, bench) };
      const params = { path: { film, cut, sheet }, query };
      return told(server.GET('/api/films/{film}/cuts/{cut}/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision, bench) =>
      `${path}/${sheet}/${what}?paper=${paper}&of=${revision}${asQuery(sheet, bench)}`,
    table: (sheet, revision, bench) =>
      TABLES.includes(sheet) ? `${path}/${sheet}/csv?of=${revision}${asQuery(sheet, bench)}` : null,
  };
}

/** The list of changes that make one version of another. */
export function ofChanges(server: Server, film: string, from: string, to: string): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/cuts/${encodeURIComponent(to)}/sheets`;
  const old = `&from=${encodeURIComponent(from)}`;
  return {
    sheets: [{ value: 'change-list', words: 'Change list' }],
    ask: (sheet, paper) => {
      const params = { path: { film, cut: to, sheet }, query: { paper, from } };
      return told(server.GET('/api/films/{film}/cuts/{cut}/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision) =>
      `${path}/${sheet}/${what}?paper=${paper}${old}&of=${revision}`,
    table: (sheet, revision) => `${path}/${sheet}/csv?of=${revision}${old}`,
  };
}

/** The sheets of a roll; of all of them for null. */
export function ofRolls(server: Server, film: string, roll: string | null): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/sheets`;
  const only = roll === null ? '' : `&roll=${encodeURIComponent(roll)}`;
  return {
    sheets: [
      { value: 'log-sheet', words: 'Log sheet' },
      { value: 'trim-labels', words: 'Labels' },
      { value: 'inspection-sheet', words: 'Inspection' },
      { value: 'scan-sheet', words: 'Scans' },
      { value: 'handling-ledger', words: 'Handling ledger' },
    ],
    ask: (sheet, paper) => {
      const query = roll === null ? { paper } : { paper, roll };
      const params = { path: { film, sheet }, query };
      return told(server.GET('/api/films/{film}/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision) =>
      `${path}/${sheet}/${what}?paper=${paper}${only}&of=${revision}`,
    table: (sheet, revision) => `${path}/${sheet}/csv?of=${revision}${only}`,
  };
}

export class SheetsOnTable {
  look = $state.raw<SheetLook | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** The strand check refuses the version: nothing can be printed. */
  refused = $state(false);
  printing = $state(false);
  private asked = 0;
  private at: ((what: string) => string) | null = null;

  /** Prints what is chosen; an older wish is forgotten. */
  async print(
    subject: Subject,
    sheet: string,
    paper: PaperName,
    bench: BenchSaid = {},
  ): Promise<void> {
    const mine = ++this.asked;
    this.printing = true;
    this.problem = null;
    this.refused = false;
    try {
      const look = await subject.ask(sheet, paper, bench);
      if (mine !== this.asked) return;
      this.at = (what) => subject.address(sheet, what, paper, look.revision, bench);
      this.look = look;
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
    return this.look && this.at ? this.at(what) : '';
  }
}
