import { describe, expect, it } from 'vitest';
import { connect } from '$lib/api/server';
import type { ShelfDocument } from '$lib/api/wire';
import { beginsWords, NewFilmForm, otherFolder } from './new_film.svelte';

function answering(status: number, body: unknown) {
  const asked: Request[] = [];
  const fetcher = (async (request: Request) => {
    asked.push(request);
    return new Response(JSON.stringify(body), {
      status,
      headers: { 'content-type': 'application/json' },
    });
  }) as typeof fetch;
  return { asked, server: connect(fetcher) };
}

describe('a new film', () => {
  it('takes its title from a dropped transfer, once', () => {
    const form = new NewFilmForm(connect());
    form.suggest('harbour_walk-roll1.mkv');
    expect(form.title).toBe('Harbour walk roll1');
    form.suggest('other.mkv');
    expect(form.title).toBe('Harbour walk roll1');
  });

  it('says which folder it gets where the name is taken', () => {
    const shelf = {
      example: 'the-ten-past-boat',
      films: [{ film: 'harbour' }, { film: 'harbour-2' }],
    };
    expect(otherFolder('The Ten-Past Boat', shelf)).toBe('the-ten-past-boat-2');
    expect(otherFolder(' Harbour! ', shelf)).toBe('harbour-3');
    expect(otherFolder('Harbour walk', shelf)).toBeNull();
    expect(otherFolder('', shelf)).toBeNull();
    expect(otherFolder('Ärger', { ...shelf, films: [{ film: 'rger' }] })).toBe('rger-2');
  });

  it('a refusal stands in the form and nothing typed is lost', async () => {
    const said = { code: 'production.unfit', message: 'no title', hint: 'give one', details: null };
    const form = new NewFilmForm(answering(422, said).server);
    form.speed = '17';
    expect(await form.begin()).toBeNull();
    expect(form.problem?.hint).toBe('give one');
    expect(form.speed).toBe('17');
    expect(form.busy).toBe(false);
  });

  it('takes gauge and speed of a template or of another film, and says what it brings', async () => {
    const template = {
      template: 'reel',
      title: 'Reel',
      words: 'Old reels.',
      gauge: '16',
      speed: '24',
    };
    const shelf = {
      templates: [{ ...template, join: null, pins: 12, run_up: 0, script: false }],
      films: [{ film: 'kite', gauge: 'Regular 8', speed: '16' }],
      gauges: [{ gauge: 'regular8', name: 'Regular 8' }],
    } as unknown as ShelfDocument;
    const { asked, server } = answering(200, {});
    const form = new NewFilmForm(server);
    form.choose('template:reel', shelf);
    expect([form.gauge, form.speed]).toEqual(['16', '24']);
    expect(beginsWords(form.begins, shelf)).toBe(
      'Old reels. It brings: no version, 12 pins, no run-up, no script.',
    );
    await form.begin();
    expect(await asked[0]?.json()).toMatchObject({ template: 'reel', like: null });
    form.choose('like:kite', shelf);
    expect([form.gauge, form.speed]).toEqual(['regular8', '16']);
    await form.begin();
    expect(await asked[1]?.json()).toMatchObject({ template: null, like: 'kite' });
  });
});
