// The paper of the dub: of one version, to look at and to print.
import { type Server, told } from '$lib/api/server';
import type { Subject } from './sheets.svelte';

/** The sheets of the dub of a version. */
export function ofDub(server: Server, film: string, cut: string): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/dub/sheets`;
  return {
    sheets: [
      { value: 'dubbing-chart', words: 'Dubbing chart' },
      { value: 'effects-list', words: 'Effects list' },
      { value: 'hand-score', words: 'Hand score' },
      { value: 'mix-log', words: 'Mix log' },
      { value: 'music-list', words: 'Music and rights' },
    ],
    ask: (sheet, paper) => {
      const params = { path: { film, sheet }, query: { cut, paper } };
      return told(server.GET('/api/films/{film}/dub/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision) =>
      `${path}/${sheet}/${what}?cut=${encodeURIComponent(cut)}&paper=${paper}&of=${revision}`,
    table: () => null,
  };
}
