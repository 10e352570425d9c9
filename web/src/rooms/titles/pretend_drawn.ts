// A card drawn by the page itself, for stories and tests without the program: it stands for
// the picture, and is not how the program letters.
import type { TitleWords } from './title_types';

const FACES: Readonly<Record<string, string>> = {
  brush: "italic 600 SIZEpx 'Kalam'",
  chalk: "400 SIZEpx 'Kalam'",
  typewriter: '500 SIZEpx monospace',
  silent: "700 SIZEpx 'Bitter'",
  transfer: "600 SIZEpx 'Barlow Semi Condensed'",
  paper: '800 SIZEpx sans-serif',
  lantern: "400 SIZEpx 'Bitter'",
  poster: "700 SIZEpx 'Barlow Semi Condensed'",
};

const escaped = (text: string) =>
  text.replace(/[&<>"]/g, (sign) => `&#${String(sign.charCodeAt(0))};`);

/** An SVG picture of the card as an address, 1000 by 742. */
export function pretendDrawn(title: TitleWords, lettered: number): string {
  const { design, down, across, dark, plate } = title.lettering;
  const lines = title.words.split('\n').filter((line) => line.trim() !== '');
  const longest = Math.max(6, ...lines.map((line) => line.length));
  const size = Math.min(130, 1300 / longest, 480 / Math.max(1, lines.length));
  const font = (FACES[design] ?? FACES['silent'] ?? '').replace('SIZE', size.toFixed(0));
  const high = size * 1.25 * lines.length;
  const top = down === 'top' ? 120 : down === 'low' ? 622 - high : 371 - high / 2;
  const [x, anchor] =
    across === 'left' ? [120, 'start'] : across === 'right' ? [880, 'end'] : [500, 'middle'];
  const grey = title.ground.kind === 'plain' ? Math.round(title.ground.light * 2.2 + 20) : 120;
  const ground =
    title.ground.kind === 'plain'
      ? `<rect width="1000" height="742" fill="rgb(${grey},${grey},${grey})"/>`
      : '<rect width="1000" height="742" fill="#8fb0b8"/><path d="M0 470 q250 -120 500 -40 t500 -60 V742 H0z" fill="#41646e"/><path d="M90 300 q200 -140 420 -30 q240 -100 490 30 v170 H0z" fill="#7b9180"/>';
  const ink = dark ? '#171512' : '#f6f1e2';
  const words = lines
    .map(
      (line, nth) =>
        `<text x="${x}" y="${(top + size * (1 + 1.25 * nth)).toFixed(0)}" text-anchor="${anchor}" style="font:${font}" fill="${ink}" opacity="${lettered}">${escaped(line)}</text>`,
    )
    .join('');
  const under = plate
    ? `<rect x="90" y="${(top - 30).toFixed(0)}" width="820" height="${(high + 60).toFixed(0)}" fill="${dark ? '#e9e2cf' : '#1c1a16'}" opacity="${0.8 * lettered}"/>`
    : '';
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 1000 742" width="1000" height="742">${ground}${under}${words}</svg>`;
  return `data:image/svg+xml,${encodeURIComponent(svg)}`;
}
