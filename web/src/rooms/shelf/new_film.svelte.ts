// Three plain questions, and a film is begun.
import { problemOf, type Server, told } from '$lib/api/server';
import type { Gauge, Problem, ShelfDocument, Shelved } from '$lib/api/wire';

/** Speeds that cameras and projectors of small gauges run at, as one says them. */
export const SPEEDS = ['9', '12', '16', '50/3', '18', '24', '25'] as const;

export class NewFilmForm {
  title = $state('');
  gauge = $state('super8');
  speed = $state('18');
  /** What it begins as: '' bare, `template:NAME`, or `like:FILM`. */
  begins = $state('');
  problem = $state.raw<Problem | null>(null);
  busy = $state(false);

  constructor(private readonly server: Server) {}

  /** The title a dropped transfer suggests: its name, without ending and dashes. */
  suggest(fileName: string): void {
    const plain = fileName
      .replace(/\.[^.]*$/, '')
      .replace(/[_-]+/g, ' ')
      .trim();
    if (this.title === '' && plain) this.title = plain[0]?.toUpperCase() + plain.slice(1);
  }

  /** Takes up a template, or another film: gauge and speed come with it. */
  choose(begins: string, shelf: ShelfDocument | null): void {
    this.begins = begins;
    const [kind, ...name] = begins.split(':');
    const template = shelf?.templates.find((one) => one.template === name.join(':'));
    const film = shelf?.films.find((one) => one.film === name.join(':'));
    if (kind === 'template' && template) {
      [this.gauge, this.speed] = [template.gauge, template.speed];
    }
    if (kind === 'like' && film) {
      const gauge = shelf?.gauges.find((one) => one.name === film.gauge);
      this.gauge = gauge?.gauge ?? this.gauge;
      this.speed = film.speed;
    }
  }

  /** Begins the film; null when it was refused, and why stands in the form. */
  async begin(): Promise<Shelved | null> {
    if (this.busy) return null;
    this.busy = true;
    this.problem = null;
    const [kind, ...name] = this.begins.split(':');
    const body = {
      title: this.title.trim(),
      gauge: this.gauge,
      speed: this.speed.trim(),
      template: kind === 'template' ? name.join(':') : null,
      like: kind === 'like' ? name.join(':') : null,
    };
    try {
      return await told(this.server.POST('/api/films', { body }));
    } catch (why) {
      this.problem = problemOf(why);
      return null;
    } finally {
      this.busy = false;
    }
  }
}

const LONGEST_FOLDER = 60;

/**
 * The folder that a title gets, where that is another than the title's own words:
 * one of that name stands on the shelf, or is the example's. Otherwise null.
 */
export function otherFolder(
  title: string,
  shelf: { readonly films: readonly { readonly film: string }[]; readonly example: string } | null,
): string | null {
  if (!shelf || title.trim() === '') return null;
  const words = title
    .toLowerCase()
    .split(/[^a-z0-9]+/)
    .filter((word) => word !== '');
  const stem = words.join('-').slice(0, LONGEST_FOLDER) || 'film';
  const taken = new Set([shelf.example, ...shelf.films.map((each) => each.film)]);
  let name = stem;
  for (let number = 2; taken.has(name); number += 1) name = `${stem}-${number}`;
  return name === stem ? null : name;
}

/** The gauges narrow to wide, by the names one says. */
export function gaugeChoices(gauges: readonly Gauge[]): { value: string; words: string }[] {
  return gauges.map((gauge) => ({ value: gauge.gauge, words: gauge.name }));
}

/** What a film that begins so brings with it, in words. */
export function beginsWords(begins: string, shelf: ShelfDocument | null): string {
  const [kind, ...name] = begins.split(':');
  if (kind === 'like') {
    return 'Its bench, its stock and its usual join, and nothing of its film or its script.';
  }
  const template = shelf?.templates.find((one) => one.template === name.join(':'));
  if (kind !== 'template' || !template) return 'Nothing but its title, its gauge and its speed.';
  const parts = [
    template.join ? `version v1, joined by ${template.join}` : 'no version',
    `${template.pins} pins`,
    template.run_up > 0 ? `${template.run_up} frames of run-up a take` : 'no run-up',
    template.script ? 'a script with one empty scene' : 'no script',
  ];
  return `${template.words} It brings: ${parts.join(', ')}.`;
}
