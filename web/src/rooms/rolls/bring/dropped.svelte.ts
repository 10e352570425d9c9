// All files of one drop, in the order of their names: a roll may have several.
import type { ScanFile } from './bring_form.svelte';
import { DroppedFile } from './dropped_file.svelte';

export class Dropped {
  files = $state.raw<readonly DroppedFile[]>([]);
  /** The name of a folder that was dropped: those are chosen in the listing. */
  folder = $state<string | null>(null);

  readonly #film: string;
  readonly #found: (files: readonly ScanFile[]) => void;

  /** @param found hears of the files once each of them is known to lie somewhere. */
  constructor(film: string, found: (files: readonly ScanFile[]) => void) {
    this.#film = film;
    this.#found = found;
  }

  /** Whether there is anything to say. */
  get isOpen(): boolean {
    return this.folder !== null || this.files.length > 0;
  }

  /** Takes up what was dropped. */
  async take(files: readonly File[], folder: string | null = null): Promise<void> {
    this.folder = folder;
    const inOrder = [...files].sort((a, b) =>
      a.name.localeCompare(b.name, undefined, { numeric: true }),
    );
    this.files = folder === null ? inOrder.map((file) => new DroppedFile(this.#film, file)) : [];
    await this.lookAgain();
  }

  async lookAgain(): Promise<void> {
    await Promise.all(this.files.map((file) => file.look()));
    this.#tellIfFound();
  }

  /** Copies those that lie nowhere, one after the other. */
  async copyAll(): Promise<void> {
    for (const file of this.files) {
      if (file.state !== 'not found') continue;
      await file.copy();
      if (file.path === null) return;
    }
    this.#tellIfFound();
  }

  putAway(): void {
    this.files.forEach((file) => file.stopCopy());
    this.files = [];
    this.folder = null;
  }

  #tellIfFound(): void {
    if (this.files.length === 0 || this.files.some((file) => file.path === null)) return;
    const found = this.files.map((file) => ({
      path: file.path ?? '',
      name: file.file.name,
      bytes: file.file.size,
    }));
    this.files = [];
    this.#found(found);
  }
}

/** Files of a drop, and the name of the first folder among them. */
export function filesOfDrop(transfer: DataTransfer): { files: File[]; folder: string | null } {
  const entries = [...transfer.items].map((item) => item.webkitGetAsEntry?.() ?? null);
  const folder = entries.find((entry) => entry?.isDirectory)?.name ?? null;
  return { files: [...transfer.files], folder };
}
