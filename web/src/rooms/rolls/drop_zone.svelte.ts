// Whether something is held over the room that may be dropped there.
export class DropZone {
  over = $state(false);
  // A drag enters and leaves every element under it; only the difference counts.
  #depth = 0;

  static holdsFiles(event: DragEvent): boolean {
    return event.dataTransfer?.types.includes('Files') ?? false;
  }

  enter(event: DragEvent): void {
    if (!DropZone.holdsFiles(event)) return;
    event.preventDefault();
    this.#depth += 1;
    this.over = true;
  }

  leave(event: DragEvent): void {
    if (!DropZone.holdsFiles(event)) return;
    this.#depth = Math.max(0, this.#depth - 1);
    if (this.#depth === 0) this.over = false;
  }

  /** Without this the browser would not let it be dropped. */
  hold(event: DragEvent): void {
    if (DropZone.holdsFiles(event)) event.preventDefault();
  }

  /** What was dropped; null where it is no file. */
  drop(event: DragEvent): DataTransfer | null {
    this.#depth = 0;
    this.over = false;
    if (!DropZone.holdsFiles(event) || !event.dataTransfer) return null;
    event.preventDefault();
    return event.dataTransfer;
  }
}
