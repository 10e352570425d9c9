// The tablet's door as the main machine sees it: open or shut, the code, who is in.
import { problemOf, type Server, told } from '$lib/api/server';
import type { components } from '$lib/api/schema';
import type { JobEvent, Problem } from '$lib/api/wire';

type Schemas = components['schemas'];

export type TabletDoor = Schemas['TabletDoorDocument'];
export type TabletCode = Schemas['TabletCodeDocument'];

export class Tablets {
  /** As it was told last; null until then. */
  door = $state.raw<TabletDoor | null>(null);
  /** Why the last thing asked for was not done. */
  problem = $state.raw<Problem | null>(null);
  busy = $state(false);
  #asked = 0;

  constructor(
    private readonly server: Server,
    private readonly film: string,
  ) {}

  /** The door's own news, and a tick: whoever made it was seen. */
  hear(event: JobEvent): void {
    const concerns = event.event === 'tablets' || event.event === 'lost';
    if (concerns || (event.event === 'changed' && this.door?.open)) void this.load();
  }

  load(): Promise<void> {
    return this.#put(() => told(this.server.GET('/api/tablets')));
  }

  /** Opens the door where it is shut, and asks for a code for one tablet. */
  letIn(): Promise<void> {
    const body = { film: this.film };
    return this.#ask(() => told(this.server.POST('/api/tablets', { body })));
  }

  shut(): Promise<void> {
    return this.#ask(() => told(this.server.DELETE('/api/tablets')));
  }

  sendAway(tablet: number): Promise<void> {
    const params = { path: { tablet } };
    return this.#ask(() => told(this.server.DELETE('/api/tablets/{tablet}', { params })));
  }

  /** The state of the door in a few words; none while it is shut. */
  get said(): string | undefined {
    const { door } = this;
    if (!door?.open) return undefined;
    return door.tablets.length > 0 ? `${door.tablets.length} let in` : 'the door is open';
  }

  /** One thing at a time: a second press meanwhile is none. */
  async #ask(ask: () => Promise<TabletDoor>): Promise<void> {
    if (this.busy) return;
    this.busy = true;
    this.problem = null;
    await this.#put(ask);
    this.busy = false;
  }

  /** What was asked for last is shown last, in whatever order answers come. */
  async #put(ask: () => Promise<TabletDoor>): Promise<void> {
    const mine = ++this.#asked;
    try {
      const found = await ask();
      if (mine === this.#asked) this.door = found;
    } catch (why) {
      if (mine === this.#asked) this.problem = problemOf(why);
    }
  }
}
