// The requests of the page. Each gives its document or throws: a Refused with
// what the server says, or a NotReached when nobody answered.
import createClient, { type Client } from 'openapi-fetch';
import type { paths } from './schema';
import type { Problem } from './wire';

/** The server has answered no, and says why and what to do. */
export class Refused extends Error {
  constructor(
    readonly problem: Problem,
    readonly status: number,
  ) {
    super(problem.message);
    this.name = 'Refused';
  }

  /** Whether another window has changed the same thing meanwhile. */
  get stale(): boolean {
    return this.problem.code === 'store.stale';
  }
}

/** Nobody answered: the program has stopped, or has not come up yet. */
export class NotReached extends Error {
  constructor(cause: unknown) {
    super('the program does not answer', { cause });
    this.name = 'NotReached';
  }
}

export type Server = Client<paths>;

export function connect(fetcher: typeof fetch = (...given) => fetch(...given)): Server {
  // Same origin, always: nothing leaves the machine.
  return createClient<paths>({
    baseUrl: window.location.origin,
    credentials: 'same-origin',
    fetch: fetcher,
  });
}

const NO_WORDS: Problem = {
  code: 'server.no_words',
  message: 'the program could not do this and did not say why',
  hint: 'try once more; if it stays so, start the program again',
  details: null,
};

function isProblem(found: unknown): found is Problem {
  return typeof found === 'object' && found !== null && 'code' in found && 'message' in found;
}

/** The document of an answer, or the reason why there is none. */
export async function told<T>(
  asked: Promise<{ data?: T; error?: unknown; response: Response }>,
): Promise<T> {
  let answer;
  try {
    answer = await asked;
  } catch (cause) {
    if (cause instanceof DOMException && cause.name === 'AbortError') throw cause;
    throw new NotReached(cause);
  }
  if (answer.data !== undefined) return answer.data;
  throw new Refused(isProblem(answer.error) ? answer.error : NO_WORDS, answer.response.status);
}

/** What went wrong, whatever was thrown, in the words for a slip. */
export function problemOf(thrown: unknown): Problem {
  if (thrown instanceof Refused) return thrown.problem;
  if (thrown instanceof NotReached) {
    return {
      code: 'server.not_reached',
      message: 'the program does not answer',
      hint: 'what was kept is safe; start the program again and this page comes back by itself',
      details: null,
    };
  }
  return NO_WORDS;
}
