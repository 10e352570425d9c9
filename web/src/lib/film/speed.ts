// Speed in frames a second, always an exact fraction. The twin of the type
// `Fps` in the film crate: it reads the same texts and has the same bounds.

/** Frames a second as a fraction in lowest terms. */
export interface Speed {
  readonly num: number;
  readonly den: number;
}

const TERM_MAX = 10_000_000n;

function commonDivisor(a: bigint, b: bigint): bigint {
  return b === 0n ? a : commonDivisor(b, a % b);
}

function lowestTerms(num: bigint, den: bigint): Speed | null {
  if (num === 0n || den === 0n) return null;
  const divisor = commonDivisor(num, den);
  const [n, d] = [num / divisor, den / divisor];
  const sane = n <= TERM_MAX && d <= TERM_MAX && n <= d * 1000n && d <= n * 1000n;
  return sane ? { num: Number(n), den: Number(d) } : null;
}

function decimal(text: string): [bigint, bigint] | null {
  const match = /^(\d*)(?:\.(\d{0,9}))?$/.exec(text);
  if (!match) return null;
  const [whole, part] = [match[1] ?? '', match[2] ?? ''];
  if (whole + part === '') return null;
  const den = 10n ** BigInt(part.length);
  return [BigInt(whole + part), den];
}

/** Reads `18`, `50/3`, `24000/1001` and decimals such as `18.36`; null for all else. */
export function parseSpeed(text: string): Speed | null {
  const plain = text.trim();
  const fraction = /^(\d+)\s*\/\s*(\d+)$/.exec(plain);
  if (fraction) return lowestTerms(BigInt(fraction[1] ?? 0), BigInt(fraction[2] ?? 0));
  const terms = decimal(plain);
  return terms ? lowestTerms(...terms) : null;
}

/** A speed as the server writes it; its word is taken, a bad one is a fault of ours. */
export function speedFrom(text: string): Speed {
  const speed = parseSpeed(text);
  if (!speed) throw new RangeError(`not a speed in frames a second: ${text}`);
  return speed;
}

/** The text that `parseSpeed` reads back: `18`, `50/3`. */
export function speedText(speed: Speed): string {
  return speed.den === 1 ? String(speed.num) : `${speed.num}/${speed.den}`;
}

/** The speed for a person: `18`, `16.67`, `23.976`; never more than three decimals. */
export function speedWords(speed: Speed): string {
  if (speed.den === 1) return String(speed.num);
  const places = speed.den === 1001 ? 3 : 2;
  return (speed.num / speed.den).toFixed(places).replace(/0+$/, '').replace(/\.$/, '');
}
