// The microphone as an ear for the projector: pieces of about half a second, each with the time
// of its first sample on the clock of the page.
import { openMicrophone } from '$lib/record/browser_microphone';
import type { Piece } from './run_desk';

/** So much is sent at once. Unit: s. */
const EACH = 0.4;

export class MicrophoneEar {
  private constructor(private readonly stopped: () => Promise<void>) {}

  static async open(
    context: AudioContext,
    blades: number | null,
    heard: (piece: Piece) => void,
    gone: () => void,
  ): Promise<MicrophoneEar> {
    const microphone = await openMicrophone(context, 1);
    const { rate } = microphone;
    const room = Math.ceil(EACH * rate);
    let samples = new Float32Array(room * 2);
    let filled = 0;
    let first = 0;
    await microphone.listen((at, more) => {
      if (filled === 0) first = at;
      if (filled + more.length > samples.length) filled = 0;
      samples.set(more, filled);
      filled += more.length;
      if (filled < room) return;
      const lag = microphone.lateAsSaid / rate;
      heard({
        at: pageTime(context, first / rate),
        rate,
        lag,
        blades,
        samples: samples.slice(0, filled),
      });
      samples = new Float32Array(room * 2);
      filled = 0;
    });
    microphone.onGone(gone);
    return new MicrophoneEar(() => microphone.stop());
  }

  close(): Promise<void> {
    return this.stopped();
  }
}

/** A moment of the sound card's clock on the clock of the page. Unit: s. */
function pageTime(context: AudioContext, at: number): number {
  return (performance.now() - (context.currentTime - at) * 1000) / 1000;
}
