// The paper of the plan: which sheets, for where and when.
import { type Server, told } from '$lib/api/server';
import type { Subject } from './sheets.svelte';

/** For where and when it is printed, in the user's words. */
export interface PlanSaid {
  readonly place: string;
  readonly day: string;
  /** Numbers of scenes, commas between; empty for all. */
  readonly scenes: string;
}

function asked({ place, day, scenes }: PlanSaid): Record<string, string> {
  const plain = { place: place.trim(), day: day.trim(), scenes: scenes.trim() };
  return Object.fromEntries(Object.entries(plain).filter(([, words]) => words !== ''));
}

/** What was said, behind other words of an address. */
function asQuery(said: PlanSaid): string {
  const words = Object.entries(asked(said));
  return words.map(([what, value]) => `&${what}=${encodeURIComponent(value)}`).join('');
}

const toFillIn = 'Sheet to fill in';

/** The sheets of the plan. */
export function ofPlan(server: Server, film: string, said: PlanSaid): Subject {
  const path = `/api/films/${encodeURIComponent(film)}/script/sheets`;
  return {
    sheets: [
      { value: 'location-folder', words: 'Location folder' },
      { value: 'shooting-script', words: 'Shooting script' },
      { value: 'lined-script', words: 'Lined script' },
      { value: 'shot-list', words: 'Shot list' },
      { value: 'floor-plan', words: 'Floor plan' },
      { value: 'visits', words: 'Visits' },
      { value: 'stock-sheet', words: 'Stock' },
      { value: 'in-camera', words: 'Cut in the camera' },
      { value: 'camera-report', words: 'Camera report', row: toFillIn },
      { value: 'sound-report', words: 'Sound report', row: toFillIn },
      { value: 'wild-sounds', words: 'Wild sounds', row: toFillIn },
    ],
    ask: (sheet, paper) => {
      const params = { path: { film, sheet }, query: { paper, ...asked(said) } };
      return told(server.GET('/api/films/{film}/script/sheets/{sheet}', { params }));
    },
    address: (sheet, what, paper, revision) =>
      `${path}/${sheet}/${what}?paper=${paper}${asQuery(said)}&of=${revision}`,
    table: () => null,
  };
}

/** The address of the camera report as a file for a phone. */
export function cameraPage(film: string, said: PlanSaid): string {
  const query = asQuery(said).replace('&', '?');
  return `/api/films/${encodeURIComponent(film)}/script/camera-page${query}`;
}
