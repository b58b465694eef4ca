import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isMet, type Measure } from './measure.ts';

const README = join(import.meta.dirname, '../README.md');
const BEGIN = '<!-- measured: begin (npm run bench -- --write) -->';
const END = '<!-- measured: end -->';

const inUnit = (value: number, unit: Measure['unit']): string => {
  if (unit === '×') return `${value.toFixed(value < 10 ? 2 : 1)} ×`;
  return `${value.toFixed(value < 10 ? 2 : 0)} ${unit}`;
};

/** The table as GitHub shows it. */
export function tableOf(measures: readonly Measure[]): string {
  const lines = measures.map(({ what, value, unit, bar, quartiles, beside }) => {
    const spread = quartiles === null ? '' : `${inUnit(quartiles[0], unit)} to ${inUnit(quartiles[1], unit)}`;
    const limit = bar === null ? '' : `${bar.at === 'least' ? '≥' : '≤'} ${bar.value} ${unit}`;
    const word = bar === null ? '' : isMet(value, bar) ? 'met' : '**missed**';
    return `| ${[what, inUnit(value, unit), limit, word, spread, beside].join(' | ')} |`;
  });
  return ['| measure | value | bar | | quartiles | beside |', '|---|---|---|---|---|---|', ...lines].join('\n');
}

/** Puts what was measured into README.md, and nothing else of it is touched. */
export async function writeTable(table: string, machine: string, at: Date): Promise<void> {
  const text = await readFile(README, 'utf8');
  const from = text.indexOf(BEGIN);
  const to = text.indexOf(END);
  if (from < 0 || to < from) throw new Error(`${README} has lost its marks: ${BEGIN} … ${END}`);
  const measured = `Measured ${at.toISOString().slice(0, 16).replace('T', ' ')} UTC on ${machine}.\n\n${table}\n`;
  await writeFile(README, `${text.slice(0, from + BEGIN.length)}\n${measured}${text.slice(to)}`);
}
