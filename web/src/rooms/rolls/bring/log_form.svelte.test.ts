// @vitest-environment node
import createClient from 'openapi-fetch';
import { expect, it } from 'vitest';
import type { paths } from '$lib/api/schema';
import { LogForm, problemsOf } from './log_form.svelte';

const LOG = 'roll,slate,take,in,out\nR1,3,1,0,100\n';

/** A server that answers one thing and writes down what it was asked. */
function serverThat(answer: object, status = 200) {
  const asked: { url: URL; body: string; kind: string | null }[] = [];
  const server = createClient<paths>({
    baseUrl: 'http://127.0.0.1:1',
    fetch: async (request) => {
      const kind = request.headers.get('content-type');
      asked.push({ url: new URL(request.url), body: await request.text(), kind });
      return new Response(JSON.stringify(answer), {
        status,
        headers: { 'content-type': 'application/json' },
      });
    },
  });
  return { server, asked };
}

it('a log is looked at first and kept when one says so, as it was written', async () => {
  const told = { takes: 1, rolls: ['R1'], unknown_columns: [], assumptions: [] };
  const { server, asked } = serverThat(told);
  const form = new LogForm(server, 'boat');
  form.roll = 'R1';
  await form.take({ name: 'my log.csv', text: () => Promise.resolve(LOG) });
  expect([form.told?.takes, form.kept]).toEqual([1, false]);
  form.counted = 'feet';
  await form.keep();
  expect(form.kept).toBe(true);
  expect(asked.map(({ url }) => url.searchParams.get('keep'))).toEqual(['false', 'true']);
  expect(asked.map(({ body, kind }) => [body, kind])).toEqual(Array(2).fill([LOG, 'text/csv']));
  expect(asked[1]?.url.searchParams.get('counted')).toBe('feet');
  expect(asked[1]?.url.pathname).toBe('/api/films/boat/log');
});

it('all that is to be put right is told at once', async () => {
  const problems = [
    { line: 2, column: 'roll', message: 'no roll named R9' },
    { line: 3, column: 'out', message: 'ends before it begins' },
  ];
  const refused = {
    code: 'production.import',
    message: 'two things',
    hint: '',
    details: { problems },
  };
  const { server } = serverThat(refused, 422);
  const form = new LogForm(server, 'boat');
  await form.take({ name: 'log.csv', text: () => Promise.resolve(LOG) });
  expect(form.told).toBeNull();
  expect(problemsOf(form.problem)).toEqual(problems);
  expect(await form.keep()).toBe(false);
  expect(problemsOf({ ...refused, details: null })).toEqual([]);
});
