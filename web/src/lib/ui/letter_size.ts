// How large letters are on this machine, for whatever is laid out in px.

/** Unit: px. */
export function pxPerRem(): number {
  return parseFloat(getComputedStyle(document.documentElement).fontSize) || 16;
}
