import { describe, expect, it } from 'vitest';
import { connect } from '$lib/api/server';
import { SheetsOnTable, sheetAddress } from './sheets.svelte';

const answering = (status: number, body: unknown) =>
  connect(
    (async () =>
      new Response(JSON.stringify(body), {
        status,
        headers: { 'content-type': 'application/json' },
      })) as typeof fetch,
  );

describe('printed sheets', () => {
  it('have an address for each page', async () => {
    const look = { sheet: 'pull-list', file_name: 'v1.pdf', pages: 2, revision: 9, proved: true };
    const sheets = new SheetsOnTable(
      answering(200, { ...look, without_pictures: [], bytes: 5 }),
      'a b',
      'v/1',
    );
    await sheets.print();
    expect(sheets.pages).toEqual([
      '/api/films/a%20b/cuts/v%2F1/sheets/pull-list/pages/1?paper=a4&of=9',
      '/api/films/a%20b/cuts/v%2F1/sheets/pull-list/pages/2?paper=a4&of=9',
    ]);
    expect(sheets.address('pdf')).toBe(sheetAddress('a b', 'v/1', 'pull-list', 'pdf', 'a4', 9));
  });

  it('are not printed of a version that cannot be made', async () => {
    const said = { code: 'production.cut_refused', message: 'no', hint: 'look', details: null };
    const sheets = new SheetsOnTable(answering(409, said), 'f', 'v1');
    await sheets.print();
    expect(sheets.refused).toBe(true);
    expect(sheets.pages).toEqual([]);
    expect(sheets.printing).toBe(false);
  });
});
