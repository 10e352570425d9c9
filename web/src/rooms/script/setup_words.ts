// Words of the trade that are offered while a setup is described; any others may be written.

export const SIZES = [
  'very long',
  'long',
  'full',
  'medium',
  'medium close',
  'close',
  'extreme close',
  'insert',
  'point of view',
  'title',
] as const;

export const MOVES = ['still', 'pan', 'tilt', 'dolly', 'zoom', 'hand-held'] as const;
