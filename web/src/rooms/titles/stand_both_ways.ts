// The copy stand the other way round: what lies in the field at a distance. The program
// reckons the distance of a field; here the width is found that it is asked with.

/**
 * The width of the field at a distance from the lens to the artwork, of a thin lens: m =
 * f ÷ (u − f), field = gate ÷ m. All in millimetres; null where the lens cannot focus.
 */
export function widthAt(distance: number, lens: number, gateWidth: number): number | null {
  if (!(lens > 0) || !(gateWidth > 0) || !(distance > 2 * lens)) return null;
  return (gateWidth * (distance - lens)) / lens;
}

/** A number as it is typed, with a comma too; null where it is none. */
export function figureTyped(typed: string): number | null {
  const plain = typed.trim().replace(',', '.');
  return /^\d*\.?\d+$|^\d+\.$/.test(plain) ? Number(plain) : null;
}
