// What a proof scan found, in words.
import type { Proof, ProofError } from '$lib/api/wire';

/** Where on the reel it is; where nothing moves that can only be told as a stretch. */
export function placeOf(error: Pick<ProofError, 'at' | 'earliest' | 'latest'>): string {
  return error.earliest === error.latest
    ? `At frame ${error.at} of the scan`
    : `Between frames ${error.earliest} and ${error.latest} of the scan`;
}

export interface OnRoll {
  readonly roll: string;
  readonly frame: number;
}

/** The last frame that was known before a place of the scan, and the first from there on. */
export function aroundPlace(
  proof: Pick<Proof, 'spans'>,
  at: number,
): { before: OnRoll | null; after: OnRoll | null } {
  const frameAt = (place: number): OnRoll | null => {
    for (const span of proof.spans) {
      const off = place - span.at;
      if (off < 0 || off >= span.out - span.in) continue;
      return { roll: span.roll, frame: span.upside_down ? span.out - 1 - off : span.in + off };
    }
    return null;
  };
  return { before: frameAt(at - 1), after: frameAt(at) };
}
