// Sends a file to the program and tells how far it is.
import { NotReached, Refused } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';

export interface Copied {
  readonly path: string;
  readonly bytes: number;
}

function isCopied(found: unknown): found is Copied {
  return typeof found === 'object' && found !== null && 'path' in found && 'bytes' in found;
}

function isProblem(found: unknown): found is Problem {
  return typeof found === 'object' && found !== null && 'code' in found && 'message' in found;
}

const UNTOLD: Problem = {
  code: 'page.copy_not_told',
  message: 'the copy was not kept, and the program did not say why',
  hint: 'try once more',
  details: null,
};

function read(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}

/** A request of the old kind: only that tells how much of a body has gone. */
export function upload(
  address: string,
  file: Blob,
  onprogress: (bytes: number) => void,
  signal: AbortSignal,
): Promise<Copied> {
  return new Promise((resolve, reject) => {
    const request = new XMLHttpRequest();
    request.upload.onprogress = (event) => onprogress(event.loaded);
    request.onload = () => {
      const answer = read(request.responseText);
      if (request.status === 200 && isCopied(answer)) resolve(answer);
      else reject(new Refused(isProblem(answer) ? answer : UNTOLD, request.status));
    };
    request.onerror = () => reject(new NotReached(new Error('the copy broke off')));
    request.onabort = () => reject(new DOMException('stopped', 'AbortError'));
    signal.addEventListener('abort', () => request.abort(), { once: true });
    request.open('PUT', address);
    request.setRequestHeader('content-type', 'application/octet-stream');
    request.send(file);
  });
}
