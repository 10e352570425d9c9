// What the shooting script says of each setup, so that a slate on a card brings what was
// planned with it.
import { type Server, told } from '$lib/api/server';
import type { LineName, TakeForm } from './take_form.svelte';

/** What a card can take over from the plan. */
export type Planned = Readonly<
  Record<Extract<LineName, 'size' | 'camera_move' | 'direction' | 'action'>, string>
>;

const NAMES = ['size', 'camera_move', 'direction', 'action'] as const;

export class PlannedSetups {
  private setups = $state.raw<ReadonlyMap<string, Planned>>(new Map());

  constructor(
    private readonly server: Server,
    private readonly film: string,
  ) {}

  /** Asks for the script; without one nothing is planned. */
  async load(): Promise<void> {
    const params = { path: { film: this.film } };
    try {
      const script = await told(this.server.GET('/api/films/{film}/script', { params }));
      this.setups = new Map(
        script.setups.map(({ setup }) => [
          setup.name.toUpperCase(),
          {
            size: setup.size,
            camera_move: setup.move,
            direction: [setup.mover, setup.direction].filter(Boolean).join(', '),
            action: setup.action,
          },
        ]),
      );
    } catch {
      // The card is written by hand then.
    }
  }

  get names(): string[] {
    return [...this.setups.keys()];
  }

  of(setup: string): Planned | null {
    return this.setups.get(setup.trim().toUpperCase()) ?? null;
  }
}

/** Writes what was planned into the lines where nothing stands. */
export function fillPlanned(card: TakeForm, planned: Planned | null): void {
  if (!planned) return;
  for (const name of NAMES) {
    if (card.typed[name].trim() === '' && planned[name] !== '') card.write(name, planned[name]);
  }
}
