// Where a small card goes beside the thing that it explains.

/** Edges in the window. Unit: px. */
export interface Box {
  readonly left: number;
  readonly top: number;
  readonly right: number;
  readonly bottom: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How near the card may come to the edge of the window. Unit: px. */
const MARGIN = 8;

/**
 * Below the anchor where there is room, else above; never out of the window
 * while it can be helped.
 */
export function placeBeside(
  anchor: Box,
  card: Size,
  window: Size,
  gap: number,
): { left: number; top: number } {
  const below = anchor.bottom + gap;
  const above = anchor.top - gap - card.height;
  const fits = below + card.height + MARGIN <= window.height;
  const top = fits || above < MARGIN ? below : above;
  const farthest = Math.max(MARGIN, window.width - card.width - MARGIN);
  const lowest = Math.max(MARGIN, window.height - card.height - MARGIN);
  return {
    left: Math.min(Math.max(anchor.left, MARGIN), farthest),
    top: Math.min(Math.max(top, MARGIN), lowest),
  };
}
