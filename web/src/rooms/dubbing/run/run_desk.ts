// What stands between a run of the mix and the program that follows the projector.
import { NotReached, Refused, type Server, told } from '$lib/api/server';
import type { Problem } from '$lib/api/wire';
import type { Followed, RunAsked, RunSeen } from './run_types';

/** A piece of what the microphone hears. */
export interface Piece {
  /** The time of its first sample, on the clock of the page. Unit: s. */
  readonly at: number;
  readonly rate: number;
  /** How late the microphone is. Unit: s. */
  readonly lag: number;
  /** Blades of the shutter where light is heard; null for the claw. */
  readonly blades: number | null;
  readonly samples: Float32Array;
}

export interface RunDesk {
  begin(cut: string, asked: Partial<RunAsked>): Promise<Followed>;
  seen(run: string, seen: RunSeen): Promise<Followed>;
  hear(run: string, piece: Piece): Promise<Followed>;
}

const DEAF: Problem = {
  code: 'page.not_heard',
  message: 'what the microphone hears did not reach the program',
  hint: 'go on by taps; if it stays so, load the page again',
  details: null,
};

export class FilmRunDesk implements RunDesk {
  constructor(
    private readonly film: string,
    private readonly server: Server,
  ) {}

  begin(cut: string, asked: Partial<RunAsked>): Promise<Followed> {
    const params = { path: { film: this.film, cut } };
    const body = { speed: null, speed_error: null, late_ms: 0, ...asked };
    return told(this.server.POST('/api/films/{film}/cuts/{cut}/run', { params, body }));
  }

  seen(run: string, body: RunSeen): Promise<Followed> {
    const params = { path: { film: this.film, run } };
    return told(this.server.POST('/api/films/{film}/runs/{run}/seen', { params, body }));
  }

  async hear(run: string, { at, rate, lag, blades, samples }: Piece): Promise<Followed> {
    const query = new URLSearchParams({
      at: String(at),
      rate: String(rate),
      lag: String(lag),
      ...(blades === null ? {} : { blades: String(blades) }),
    });
    const path = `/api/films/${encodeURIComponent(this.film)}/runs/${run}/heard?${query.toString()}`;
    const answer = await fetch(path, {
      method: 'POST',
      body: new Uint8Array(samples.slice().buffer),
      credentials: 'same-origin',
      headers: { 'content-type': 'application/octet-stream' },
    }).catch((why: unknown) => {
      throw new NotReached(why);
    });
    if (!answer.ok) {
      const problem = (await answer.json().catch(() => DEAF)) as Problem;
      throw new Refused(problem, answer.status);
    }
    return (await answer.json()) as Followed;
  }
}
