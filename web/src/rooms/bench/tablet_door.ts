// How a tablet comes in, and which film it is let in for.
import { Refused, told } from '$lib/api/server';

interface Door {
  /** The film on the bench that this tablet belongs to. */
  readonly film: string;
}

async function door(body?: object): Promise<Door> {
  const how = body
    ? {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(body),
      }
    : {};
  const asked = fetch('/api/bench/tablet', { credentials: 'same-origin', ...how }).then(
    async (response) => {
      const found: unknown = await response.json().catch(() => undefined);
      return response.ok ? { data: found as Door, response } : { error: found, response };
    },
  );
  return told<Door>(asked as Promise<{ data?: Door; error?: unknown; response: Response }>);
}

/** The film that this tablet was let in for; null where it is not let in. */
export async function filmOfTablet(): Promise<string | null> {
  try {
    return (await door()).film;
  } catch (why) {
    if (why instanceof Refused && why.status === 401) return null;
    throw why;
  }
}

/** Comes in with the code that stands on the main machine. */
export async function comeIn(code: string, name: string): Promise<void> {
  await door({ code: code.replace(/\s/g, ''), name });
}
