import { coverage } from './report-kinetics-goals.ts';
import type { Foresight } from './report-kinetics-run.ts';

const BANDS = Array.from({ length: 19 }, (_, i) => (i + 1) * 0.05);
const SIDE = 360;
const LEFT = 64;
const TOP = 56;
const KEY = 190;
/** Told apart by dash and by marker as well as by colour. */
const STROKES = [
  { colour: '#1b5e8c', dash: '' },
  { colour: '#a3481d', dash: '8 4' },
  { colour: '#3f6b2a', dash: '2 4' },
  { colour: '#5b3a86', dash: '10 3 2 3' },
] as const;

const x = (share: number): number => LEFT + SIDE * share;
const y = (share: number): number => TOP + SIDE * (1 - share);
const points = (foresights: readonly Foresight[]): string =>
  BANDS.map((band) => `${x(band).toFixed(1)},${y(coverage(foresights, band)).toFixed(1)}`).join(' ');

/** How many drains lay within a band, against how many should have: on the diagonal the bands are honest. */
export function calibrationSvg(foresights: readonly Foresight[], caption: string): string {
  const worlds = [...new Set(foresights.map(({ world }) => world))];
  const ticks = [0, 0.2, 0.4, 0.6, 0.8, 1];
  const percent = (share: number): string => `${Math.round(100 * share)} %`;
  const lines = worlds.map((world, i) => {
    const { colour, dash } = STROKES[i % STROKES.length]!;
    const style = `fill="none" stroke="${colour}" stroke-width="2" stroke-dasharray="${dash}"`;
    const own = foresights.filter((one) => one.world === world);
    const keyY = TOP + 24 + 24 * i;
    return [
      `<polyline points="${points(own)}" ${style}/>`,
      `<line x1="${LEFT + SIDE + 20}" y1="${keyY}" x2="${LEFT + SIDE + 52}" y2="${keyY}" ${style}/>`,
      `<text x="${LEFT + SIDE + 60}" y="${keyY + 4}">${world}</text>`,
    ].join('\n  ');
  });
  const grid = ticks.flatMap((tick) => [
    `<line x1="${x(tick)}" y1="${TOP}" x2="${x(tick)}" y2="${TOP + SIDE}" stroke="#d9d9d9"/>`,
    `<line x1="${LEFT}" y1="${y(tick)}" x2="${LEFT + SIDE}" y2="${y(tick)}" stroke="#d9d9d9"/>`,
    `<text x="${x(tick)}" y="${TOP + SIDE + 20}" text-anchor="middle">${percent(tick)}</text>`,
    `<text x="${LEFT - 8}" y="${y(tick) + 4}" text-anchor="end">${percent(tick)}</text>`,
  ]);
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${LEFT + SIDE + KEY} ${TOP + SIDE + 56}" font-family="sans-serif" font-size="13" fill="#222">
  <title>Calibration of the expected drain</title>
  <rect width="100%" height="100%" fill="#fff"/>
  <text x="${LEFT}" y="24" font-size="15" font-weight="600">Drains within the band, against how many should be</text>
  <text x="${LEFT}" y="43">${caption}</text>
  ${grid.join('\n  ')}
  <line x1="${x(0)}" y1="${y(0)}" x2="${x(1)}" y2="${y(1)}" stroke="#888"/>
  <line x1="${x(0.8)}" y1="${TOP}" x2="${x(0.8)}" y2="${TOP + SIDE}" stroke="#888" stroke-dasharray="3 3"/>
  ${lines.join('\n  ')}
  <text x="${LEFT + SIDE / 2}" y="${TOP + SIDE + 44}" text-anchor="middle">size of the band (the product shows 80 %)</text>
</svg>
`;
}
