// The shelf of family reels: which reels there are, and what was asked of them.
import { problemOf, type Server, told } from '$lib/api/server';
import type { Copies, Family, FamilyReel, Problem } from '$lib/api/wire';
import { AskedWork, type WorkTold } from '../../rolls/read_back/asked_work.svelte';

export class FamilyDesk {
  reels = $state.raw<readonly FamilyReel[] | null>(null);
  problem = $state.raw<Problem | null>(null);
  /** The reels that are asked about. */
  chosen = $state<string[]>([]);
  first = $state('');
  second = $state('');
  readonly cameras: AskedWork<Family>;
  readonly copies: AskedWork<Copies>;

  constructor(
    private readonly server: Server,
    jobs: WorkTold,
  ) {
    this.cameras = new AskedWork<Family>(jobs);
    this.copies = new AskedWork<Copies>(jobs);
  }

  async load(): Promise<void> {
    try {
      const { reels } = await told(this.server.GET('/api/family', {}));
      this.reels = reels;
      const has = (name: string) => reels.some((reel) => reel.reel === name);
      this.chosen = this.chosen.filter(has);
      if (this.chosen.length === 0) this.chosen = reels.map((reel) => reel.reel);
      if (!has(this.first)) this.first = reels[0]?.reel ?? '';
      if (!has(this.second)) this.second = reels[1]?.reel ?? '';
      this.problem = null;
    } catch (why) {
      this.problem = problemOf(why);
    }
  }

  get canCompare(): boolean {
    return this.first !== '' && this.second !== '' && this.first !== this.second;
  }

  look(): Promise<void> {
    const body = { reels: [...this.chosen] };
    return this.cameras.ask({
      begin: () => told(this.server.POST('/api/family/cameras', { body })),
      answer: (job) =>
        told(this.server.GET('/api/family/cameras/{job}', { params: { path: { job } } })),
    });
  }

  compare(): Promise<void> {
    const body = { first: this.first, second: this.second };
    return this.copies.ask({
      begin: () => told(this.server.POST('/api/family/copies', { body })),
      answer: (job) =>
        told(this.server.GET('/api/family/copies/{job}', { params: { path: { job } } })),
    });
  }

  leave(): void {
    this.cameras.leave();
    this.copies.leave();
  }
}
