// Contrast as the WCAG 2 counts it. Source: WCAG 2.2, "relative luminance" and
// "contrast ratio" in its list of terms.

/** A colour of tokens.css, written `#rrggbb`. */
export type Hex = string;

function linear(part: number): number {
  const share = part / 255;
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
}

/** How bright a colour is, from 0 (black) to 1 (white). */
export function luminance(hex: Hex): number {
  const parts = /^#([0-9a-f]{2})([0-9a-f]{2})([0-9a-f]{2})$/i.exec(hex);
  if (!parts) throw new Error(`not a colour of six figures: ${hex}`);
  const [red, green, blue] = parts.slice(1).map((part) => linear(parseInt(part, 16)));
  return 0.2126 * (red ?? 0) + 0.7152 * (green ?? 0) + 0.0722 * (blue ?? 0);
}

/** How far two colours stand apart, from 1 to 21. */
export function contrast(one: Hex, other: Hex): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((light ?? 0) + 0.05) / ((dark ?? 0) + 0.05);
}
