// Where a recording is kept: in the film that lies open, over the wire.
import { NotReached, Refused, type Server, told } from '$lib/api/server';
import type { components } from '$lib/api/schema';
import type { Problem } from '$lib/api/wire';
import type { Pass, RecordingPlace } from './recorder.svelte';

/** A recording that was left half, as by a crash. */
export type HalfRecording = components['schemas']['RecordingDocument'];
/** A recording that has become a sound of the film. */
export type Recorded = components['schemas']['RecordedDocument'];

/** What is recorded, and to what. */
export interface RecordedTo {
  readonly name: string;
  readonly cut: string;
  readonly at: number;
}

export class FilmRecordings implements RecordingPlace {
  /** @param to what the next pass is recorded to, asked when it begins. */
  constructor(
    private readonly film: string,
    private readonly server: Server,
    private readonly to: () => RecordedTo,
  ) {}

  async begin(about: { rate: number; channels: 1 | 2 }): Promise<string> {
    const asked = this.server.POST('/api/films/{film}/recordings', {
      params: { path: { film: this.film } },
      body: { ...about, ...this.to() },
    });
    return (await told(asked)).recording;
  }

  async keep(
    recording: string,
    at: number,
    samples: Float32Array,
    offset: number | null,
  ): Promise<number> {
    const film = encodeURIComponent(this.film);
    const path = `/api/films/${film}/recordings/${encodeURIComponent(recording)}?at=${at}${offset === null ? '' : `&offset=${offset}`}`;
    const answer = await fetch(path, {
      method: 'POST',
      headers: { 'Content-Type': 'application/octet-stream' },
      body: new Uint8Array(samples.buffer, samples.byteOffset, samples.byteLength).slice(),
      credentials: 'same-origin',
    }).catch((why: unknown) => {
      throw new NotReached(why);
    });
    const said = (await answer.json()) as unknown;
    if (!answer.ok) throw new Refused(said as Problem, answer.status);
    return (said as { samples: number }).samples;
  }

  /** A program that does not answer may come back; what it refuses it will refuse again. */
  mayHelp(why: unknown): boolean {
    return !(why instanceof Refused) || why.status >= 500;
  }

  /** Makes a pass, or what was left half, a sound of the film. */
  finish({ recording, offset }: Pick<Pass, 'recording' | 'offset'>): Promise<Recorded> {
    const path = { film: this.film, recording };
    const asked = this.server.POST('/api/films/{film}/recordings/{recording}/done', {
      params: { path },
      body: { offset },
    });
    return told(asked);
  }

  /** What was left half; while a pass is recorded it is among them. */
  half(): Promise<HalfRecording[]> {
    const params = { path: { film: this.film } };
    return told(this.server.GET('/api/films/{film}/recordings', { params }));
  }

  /** Throws away what is not a sound of the film; gives what is left. */
  throwAway(recording: string): Promise<HalfRecording[]> {
    const params = { path: { film: this.film, recording } };
    return told(this.server.DELETE('/api/films/{film}/recordings/{recording}', { params }));
  }
}
