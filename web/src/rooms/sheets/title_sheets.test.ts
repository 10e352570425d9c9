import { expect, it } from 'vitest';
import type { Server } from '$lib/api/server';
import { celDrawing, ofTitles } from './title_sheets';

const nobody = {} as Server;

it('names the film, the paper, the title and how its cel comes out', () => {
  const said = { title: 'T 1', letters: 'white', mirrored: true } as const;
  expect(ofTitles(nobody, 'a b', said).address('cel', 'pdf', 'letter', 7, {})).toBe(
    '/api/films/a%20b/titles/sheets/cel/pdf?paper=letter&title=T%201&reversed=true&mirrored=true&of=7',
  );
  // The list is of all titles, whichever one is at.
  expect(ofTitles(nobody, 'boat', said).address('title-list', 'pages/1', 'a4', 7, {})).toBe(
    '/api/films/boat/titles/sheets/title-list/pages/1?paper=a4&of=7',
  );
  expect(celDrawing('boat', { ...said, letters: 'black', mirrored: false })).toBe(
    '/api/films/boat/titles/cel?title=T%201&reversed=false',
  );
  // As it is shot, the program knows.
  expect(celDrawing('boat', { title: '', letters: 'as_shot', mirrored: false })).toBe(
    '/api/films/boat/titles/cel',
  );
});
