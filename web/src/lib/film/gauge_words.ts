// A gauge as people call it.

const CALLED: Readonly<Record<string, string>> = {
  regular8: 'Regular 8',
  super8: 'Super 8',
  '9.5': '9.5 mm',
  '16': '16 mm',
  '35': '35 mm',
};

/** A gauge in words, from its code; a code that is not known stays as it is. */
export function gaugeWords(code: string): string {
  return CALLED[code] ?? code;
}
