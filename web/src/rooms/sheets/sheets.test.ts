import { describe, expect, it } from 'vitest';
import { connect } from '$lib/api/server';
import { ofChanges, ofRolls, ofVersion, SheetsOnTable } from './sheets.svelte';

const asked: string[] = [];
const answering = (status: number, body: unknown) =>
  connect((async (request: Request) => {
    const url = new URL(request.url);
    asked.push(url.pathname + url.search);
    return new Response(JSON.stringify(body), {
      status,
      headers: { 'content-type': 'application/json' },
    });
  }) as typeof fetch);

const look = {
  sheet: 'pull-list',
  file_name: 'v1.pdf',
  pages: 2,
  revision: 9,
  proved: true,
  without_pictures: [],
  bytes: 5,
};

describe('printed sheets', () => {
  it('of a version have an address for each page', async () => {
    const sheets = new SheetsOnTable();
    await sheets.print(ofVersion(answering(200, look), 'a b', 'v/1'), 'pull-list', 'a4');
    expect(sheets.pages).toEqual([
      '/api/films/a%20b/cuts/v%2F1/sheets/pull-list/pages/1?paper=a4&of=9',
      '/api/films/a%20b/cuts/v%2F1/sheets/pull-list/pages/2?paper=a4&of=9',
    ]);
    expect(sheets.address('pdf')).toBe(
      '/api/films/a%20b/cuts/v%2F1/sheets/pull-list/pdf?paper=a4&of=9',
    );
  });

  it('of a roll name it, and those of all rolls name none', async () => {
    const sheets = new SheetsOnTable();
    asked.length = 0;
    await sheets.print(ofRolls(answering(200, look), 'a b', 'R 1'), 'log-sheet', 'letter');
    expect(sheets.pages[0]).toBe(
      '/api/films/a%20b/sheets/log-sheet/pages/1?paper=letter&roll=R%201&of=9',
    );
    await sheets.print(ofRolls(answering(200, look), 'a b', null), 'scan-sheet', 'a4');
    expect(sheets.address('pdf')).toBe('/api/films/a%20b/sheets/scan-sheet/pdf?paper=a4&of=9');
    expect(asked).toEqual([
      '/api/films/a%20b/sheets/log-sheet?paper=letter&roll=R%201',
      '/api/films/a%20b/sheets/scan-sheet?paper=a4',
    ]);
  });

  it('of a version are tables too, but for the pull list', () => {
    const version = ofVersion(answering(200, look), 'f', 'v 1');
    expect(version.table('cutting-sheet', 9, {})).toBe(
      '/api/films/f/cuts/v%201/sheets/cutting-sheet/csv?of=9',
    );
    expect(version.table('pull-list', 9, {})).toBeNull();
    expect(version.table('frame-cards', 9, {})).toBeNull();
    expect(version.table('work-order', 9, { pins: 6, up: 'emulsion' })).toBe(
      '/api/films/f/cuts/v%201/sheets/work-order/csv?of=9&pins=6',
    );
  });

  it('for the bench say how it is, and only what matters to them', async () => {
    const sheets = new SheetsOnTable();
    const bench = { pins: 9, winding: 'tails', up: 'emulsion', head: undefined } as const;
    asked.length = 0;
    const version = ofVersion(answering(200, look), 'f', 'v1');
    await sheets.print(version, 'frame-cards', 'a4', bench);
    await sheets.print(version, 'outs-list', 'a4', bench);
    expect(asked).toEqual([
      '/api/films/f/cuts/v1/sheets/frame-cards?paper=a4&pins=9&winding=tails&up=emulsion',
      '/api/films/f/cuts/v1/sheets/outs-list?paper=a4',
    ]);
    await sheets.print(version, 'work-order', 'letter', bench);
    expect(sheets.address('pdf')).toBe(
      '/api/films/f/cuts/v1/sheets/work-order/pdf?paper=letter&of=9&pins=9&winding=tails',
    );
  });

  it('of changes name both versions', async () => {
    const sheets = new SheetsOnTable();
    asked.length = 0;
    const changes = ofChanges(answering(200, look), 'a b', 'v 1', 'v2');
    await sheets.print(changes, 'change-list', 'a4');
    expect(asked).toEqual(['/api/films/a%20b/cuts/v2/sheets/change-list?paper=a4&from=v%201']);
    expect(sheets.pages[0]).toBe(
      '/api/films/a%20b/cuts/v2/sheets/change-list/pages/1?paper=a4&from=v%201&of=9',
    );
    expect(changes.table('change-list', 9, {})).toBe(
      '/api/films/a%20b/cuts/v2/sheets/change-list/csv?of=9&from=v%201',
    );
  });

  it('are not printed of a version that cannot be made', async () => {
    const said = { code: 'production.cut_refused', message: 'no', hint: 'look', details: null };
    const sheets = new SheetsOnTable();
    await sheets.print(ofVersion(answering(409, said), 'f', 'v1'), 'pull-list', 'a4');
    expect(sheets.refused).toBe(true);
    expect(sheets.pages).toEqual([]);
    expect(sheets.printing).toBe(false);
  });
});
