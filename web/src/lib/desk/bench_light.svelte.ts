// Light or dark bench, kept on this machine; until chosen, as the system has it.

export type BenchLight = 'system' | 'light' | 'dark';

const KEPT = 'onestrand.bench';

export class Bench {
  light = $state<BenchLight>('system');

  constructor(private readonly root: HTMLElement = document.documentElement) {
    const kept = localStorage.getItem(KEPT);
    if (kept === 'light' || kept === 'dark') this.choose(kept);
  }

  choose(light: BenchLight): void {
    this.light = light;
    if (light === 'system') {
      localStorage.removeItem(KEPT);
      delete this.root.dataset.bench;
    } else {
      localStorage.setItem(KEPT, light);
      this.root.dataset.bench = light;
    }
  }
}
