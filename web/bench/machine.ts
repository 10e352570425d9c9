// What else the machine is doing, and what the program takes of it.
import { readdir, readFile } from 'node:fs/promises';
import { cpus, loadavg } from 'node:os';
import { setTimeout as rest } from 'node:timers/promises';

const CORES = cpus().length;
/** More than this for each core, and the figures say little. */
const BUSY = 1;
/** How long the machine is watched before a measure. Unit: milliseconds. */
const WATCH = 2000;

/** Share of all cores that was busy between two looks. */
function busySince(before: ReturnType<typeof cpus>): number {
  let [busy, all] = [0, 0];
  cpus().forEach(({ times }, core) => {
    const was = before[core]?.times;
    if (!was) return;
    const total = Object.values(times).reduce((a, b) => a + b, 0);
    const had = Object.values(was).reduce((a, b) => a + b, 0);
    all += total - had;
    busy += total - had - (times.idle - was.idle);
  });
  return all > 0 ? busy / all : 0;
}

/** The load before a measure, in words; a caution where it is too high. */
export async function loadNow(): Promise<string> {
  const before = cpus();
  await rest(WATCH);
  const busy = busySince(before);
  const load = loadavg()[0] ?? 0;
  const words =
    `load before: ${load.toFixed(2)} on ${CORES} cores over the last minute, ` +
    `${(busy * 100).toFixed(0)} % busy over the last ${WATCH / 1000} s`;
  const high = load / CORES > BUSY;
  return high
    ? `${words}\nCAUTION: above ${BUSY.toFixed(1)} a core; these figures say little`
    : words;
}

/** Resident memory of a process, now and at its most. Unit: bytes. */
export async function memoryOf(pid: number): Promise<{ now: number; most: number }> {
  const status = await readFile(`/proc/${pid}/status`, 'utf8');
  const bytes = (name: string) =>
    Number(new RegExp(`^${name}:\\s+(\\d+) kB$`, 'm').exec(status)?.[1] ?? NaN) * 1024;
  return { now: bytes('VmRSS'), most: bytes('VmHWM') };
}

/** The process that was started with these words one after the other. */
export async function processWith(words: readonly string[]): Promise<number> {
  const wanted = `${words.join('\0')}\0`;
  for (const name of await readdir('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    const line = await readFile(`/proc/${name}/cmdline`, 'utf8').catch(() => '');
    if (line.includes(wanted)) return Number(name);
  }
  throw new Error(`no process was started with ${words.join(' ')}`);
}
