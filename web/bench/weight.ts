// What the page weighs on the wire.
import { readdir, readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { kilobytes } from './figures';
import { Table } from './table';

/** Source: issue 3. Unit: bytes. */
const LIMIT = 300_000;
const FONTS = ['.woff2', '.woff', '.ttf', '.otf'];

/** Weighs the files that the page's build has made. */
export async function weigh(dist: string): Promise<Table> {
  const entries = await readdir(dist, { recursive: true, withFileTypes: true });
  const sum = { '.js': 0, '.css': 0, plain: 0, fonts: 0 };
  for (const entry of entries) {
    if (!entry.isFile()) continue;
    const bytes = await readFile(join(entry.parentPath ?? entry.path, entry.name));
    const kind = extname(entry.name);
    if (kind === '.js' || kind === '.css') {
      sum[kind] += gzipSync(bytes, { level: 9 }).length;
      sum.plain += bytes.length;
    } else if (FONTS.includes(kind)) sum.fonts += bytes.length;
  }
  const table = new Table();
  table.limited('code of the page, compressed', sum['.js'] + sum['.css'], LIMIT, kilobytes);
  table.told('  scripts', kilobytes(sum['.js']));
  table.told('  styles', kilobytes(sum['.css']));
  table.told('the same as it lies there', kilobytes(sum.plain));
  table.told('fonts, apart', kilobytes(sum.fonts));
  return table;
}
