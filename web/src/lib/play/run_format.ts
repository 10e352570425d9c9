// A run of frames as the server sends it: for each frame four bytes of length,
// the lowest first, then that many bytes of JPEG. Length 0 says that the scan
// shows no picture of this frame. A run that ends sooner between two frames
// says that the roll has no more of them; one that ends inside a frame is broken.

const LENGTH_BYTES = 4;

/** A run that does not hold what was asked for. */
export class RunBroken extends Error {
  constructor(
    /** Pictures that came whole, or were said to be missing, before the fault. */
    readonly whole: number,
    /** Frames that were asked for. */
    readonly asked: number,
    reason: string,
  ) {
    super(`${reason}: ${whole} of ${asked} frames came whole`);
    this.name = 'RunBroken';
  }
}

/** The pictures of a run in order, as many as were asked for; null where there is none. */
export function parseRun(body: Uint8Array<ArrayBuffer>, asked: number): (Blob | null)[] {
  const lengths = new DataView(body.buffer, body.byteOffset, body.byteLength);
  const pictures: (Blob | null)[] = [];
  let at = 0;
  while (pictures.length < asked && at < body.byteLength) {
    if (at + LENGTH_BYTES > body.byteLength) {
      throw new RunBroken(pictures.length, asked, 'the run ends inside a length');
    }
    const length = lengths.getUint32(at, true);
    at += LENGTH_BYTES;
    if (length > body.byteLength - at) {
      throw new RunBroken(pictures.length, asked, 'the run ends inside a picture');
    }
    const jpeg = body.subarray(at, at + length);
    pictures.push(length === 0 ? null : new Blob([jpeg], { type: 'image/jpeg' }));
    at += length;
  }
  if (at !== body.byteLength) {
    throw new RunBroken(asked, asked, 'the run goes on after its last frame');
  }
  while (pictures.length < asked) pictures.push(null);
  return pictures;
}
