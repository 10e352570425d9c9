// A line to the program: one kept-alive connection, let in by the printed code.
import { Agent, request } from 'node:http';
import { setTimeout as rest } from 'node:timers/promises';
import type { Film, FilmChange, Job, Kept, NewFilm } from '$lib/api/wire';

interface Answer {
  readonly status: number;
  readonly body: Buffer;
  readonly cookie: string | null;
}

export class Line {
  private readonly agent = new Agent({ keepAlive: true, maxSockets: 1 });
  private key = 0;

  private constructor(
    readonly origin: string,
    /** The cookie that lets one in: name and value. */
    private cookie: string,
  ) {}

  /** Exchanges the code of the printed address. */
  static async open(address: string): Promise<Line> {
    const url = new URL(address);
    const line = new Line(url.origin, '');
    const { cookie } = await line.ask('GET', url.pathname + url.search);
    if (!cookie) throw new Error('the program did not take its own code');
    line.cookie = cookie;
    return line;
  }

  /** The cookie as a browser takes it. */
  get letIn(): { name: string; value: string; url: string } {
    const [name = '', value = ''] = this.cookie.split('=');
    return { name, value, url: this.origin };
  }

  close(): void {
    this.agent.destroy();
  }

  /** The bytes behind an address. */
  async bytes(path: string): Promise<Buffer> {
    const { status, body } = await this.ask('GET', path);
    if (status !== 200) throw new Error(`GET ${path}: ${status} ${body.toString()}`);
    return body;
  }

  /** Begins a film; gives its name in addresses. */
  async newFilm(film: NewFilm): Promise<string> {
    const shelf = await this.document<{ film: string }>('POST', '/api/films', film);
    return shelf.film;
  }

  film(film: string): Promise<Film> {
    return this.document('GET', `/api/films/${film}`);
  }

  /** Brings a scan in and waits until it is read. */
  async bringIn(film: string, roll: string, scan: string): Promise<void> {
    const path = `/api/films/${film}/rolls`;
    const { job } = await this.document<Job>('POST', path, { roll, files: [scan] });
    for (;;) {
      const jobs = await this.document<Job[]>('GET', '/api/jobs');
      const found = jobs.find((one) => one.job === job);
      if (found?.state === 'done') return;
      if (found?.state !== 'running') {
        throw new Error(`${roll} was not read: ${found?.problem?.message ?? found?.state}`);
      }
      await rest(250);
    }
  }

  async change(film: string, change: FilmChange): Promise<Kept> {
    const { revision } = await this.film(film);
    const key = `bench-${(this.key += 1)}`;
    return this.document('POST', `/api/films/${film}/changes`, { key, revision, change });
  }

  private async document<T>(method: string, path: string, body?: unknown): Promise<T> {
    const answer = await this.ask(method, path, body);
    if (answer.status !== 200) {
      throw new Error(`${method} ${path}: ${answer.status} ${answer.body.toString()}`);
    }
    return JSON.parse(answer.body.toString()) as T;
  }

  private ask(method: string, path: string, body?: unknown): Promise<Answer> {
    const sent = body === undefined ? null : JSON.stringify(body);
    const headers: Record<string, string> = { cookie: this.cookie };
    if (sent !== null) headers['content-type'] = 'application/json';
    return new Promise((resolve, reject) => {
      const asked = request(this.origin + path, { method, headers, agent: this.agent });
      asked.once('error', reject);
      asked.once('response', (response) => {
        const parts: Buffer[] = [];
        response.on('data', (part: Buffer) => parts.push(part));
        response.once('error', reject);
        response.once('end', () =>
          resolve({
            status: response.statusCode ?? 0,
            body: Buffer.concat(parts),
            cookie: response.headers['set-cookie']?.[0]?.split(';')[0] ?? null,
          }),
        );
      });
      asked.end(sent ?? undefined);
    });
  }
}
