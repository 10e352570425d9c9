// Frames of the example film, "The Ten-Past Boat", small: for the stories only.

const files = import.meta.glob<string>('./frames/*.jpg', {
  eager: true,
  query: '?url',
  import: 'default',
});

/** The address of a picture by roll and frame: `picture('R2', 606)`. */
export function picture(roll: string, frame: number): string {
  const found = files[`./frames/${roll}-${frame}.jpg`];
  if (found === undefined) throw new Error(`no story picture of ${roll}·${frame}`);
  return found;
}

/** All of them, in the order of rolls and frames. */
export const pictures: readonly string[] = Object.keys(files)
  .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }))
  .map((name) => files[name] ?? '');
