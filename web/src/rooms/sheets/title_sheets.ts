// The paper of the titles: which sheets, of which title, and how its cel comes out.
import { type Server, told } from '$lib/api/server';
import type { Subject } from './sheets.svelte';

/** Of which title, and how letters are printed on clear film. */
export interface TitlesSaid {
  /** Its name; empty for the first. */
  readonly title: string;
  /** Black letters, white ones on black, or as the title is shot. */
  readonly letters: 'as_shot' | 'black' | 'white';
  /** To be printed on the back of the film. */
  readonly mirrored: boolean;
}

interface Asked {
  readonly title?: string;
  readonly reversed?: boolean;
  readonly mirrored?: boolean;
}

/** Sheets of one title; the others are of all of them. */
const OF_ONE: readonly string[] = ['exposure-sheet', 'cel'];

function asked(sheet: string, { title, letters, mirrored }: TitlesSaid): Asked {
  if (!OF_ONE.includes(sheet)) return {};
  return {
    ...(title === '' ? {} : { title }),
    ...(letters === 'as_shot' ? {} : { reversed: letters === 'white' }),
    ...(mirrored ? { mirrored } : {}),
  };
}

/** What was said, behind other words of an address. */
function asQuery(sheet: string, said: TitlesSaid): string {
  const words = Object.entries(asked(sheet, said));
  return words.map(([what, value]) => `&${what}=${encodeURIComponent(String(value))}`).join('');
}

const ofOne = 'Of one title';

/** The sheets of the titles. */
export function ofTitles(server: Server, film: string, said: TitlesSaid): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/titles/sheets`;
  return {
    sheets: [
      { value: 'title-list', words: 'Title list' },
      { value: 'stand-drawing', words: 'Copy stand' },
      { value: 'field-chart', words: 'Field chart' },
      { value: 'exposure-sheet', words: 'Exposure sheet', row: ofOne },
      { value: 'cel', words: 'Cel', row: ofOne },
    ],
    ask: (sheet, paper) => {
      const params = { path: { film, sheet }, query: { paper, ...asked(sheet, said) } };
      return told(server.GET('/api/films/{film}/titles/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision) =>
      `${path}/${sheet}/${what}?paper=${paper}${asQuery(sheet, said)}&of=${revision}`,
    table: () => null,
  };
}

/** The address of a title's lettering as a drawing of true size. */
export function celDrawing(film: string, said: TitlesSaid): string {
  const query = asQuery('cel', said).replace('&', '?');
  return `/api/films/${encodeURIComponent(film)}/titles/cel${query}`;
}
