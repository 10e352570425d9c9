// For what is painted and cannot use the tokens itself: reads them, and tells
// when the bench turns light or dark.

/** The value of a token where the element stands. */
export function token(at: Element, name: string): string {
  return getComputedStyle(at).getPropertyValue(`--${name}`).trim();
}

/** Calls when the palette changes, by choice or by the system. Gives back how to stop. */
export function watchBench(onchange: () => void): () => void {
  const chosen = new MutationObserver(onchange);
  chosen.observe(document.documentElement, { attributeFilter: ['data-bench'] });
  const system = matchMedia('(prefers-color-scheme: dark)');
  system.addEventListener('change', onchange);
  return () => {
    chosen.disconnect();
    system.removeEventListener('change', onchange);
  };
}
