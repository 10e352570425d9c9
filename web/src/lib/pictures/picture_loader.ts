// How a small picture is fetched: as an `ImageBitmap`, decoded away from the page.

/** The server answered, but with no picture. */
export class PictureRefused extends Error {
  constructor(
    readonly status: number,
    url: string,
  ) {
    super(`no picture at ${url}: answer ${status}`);
    this.name = 'PictureRefused';
  }
}

/** Whether an answer says that no scan shows the frame. */
const NO_PICTURE = 204;

/** A loader for `PictureShelf`; the browser is told that these may wait for others. */
export function pictureLoader(
  ask: typeof fetch = (...request) => fetch(...request),
  decode: (jpeg: Blob) => Promise<ImageBitmap> = (jpeg) => createImageBitmap(jpeg),
) {
  return async (url: string, signal: AbortSignal): Promise<ImageBitmap | null> => {
    const answer = await ask(url, { signal, priority: 'low' });
    if (answer.status === NO_PICTURE) return null;
    if (!answer.ok) throw new PictureRefused(answer.status, url);
    return decode(await answer.blob());
  };
}
