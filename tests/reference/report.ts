import { ROOMS } from './rooms.ts';
import { type Outcome, readRows, tryRow } from './rows.ts';

/** Prints every reference value beside what the domain computes; ends with 1 when one misses. */
const COLUMNS = ['quantity', 'source', 'expected', 'got', 'tolerance', 'mark'] as const;

const number = (value: unknown): string =>
  typeof value === 'number' ? String(Number(value.toPrecision(7))) : String(value);

const cells = ({ row, got, holds }: Outcome): readonly string[] => [
  `${holds ? '' : 'MISS '}${row.quantity}`,
  row.source,
  `${row.must === 'differ' ? 'not ' : ''}${number(row.expected)}${row.unit === '' ? '' : ` ${row.unit}`}`,
  number(got),
  row.tolerance === null ? '' : `± ${row.tolerance}`,
  row.mark,
];

const print = (room: string, outcomes: readonly Outcome[]): void => {
  const table = [COLUMNS as readonly string[], ...outcomes.map(cells)];
  const widths = COLUMNS.map((_, column) => Math.max(...table.map((line) => line[column]!.length)));
  const text = (line: readonly string[]): string =>
    line
      .map((cell, column) => cell.padEnd(widths[column]!))
      .join('  ')
      .trimEnd();
  console.log(`\n${room}\n${text(table[0]!)}\n${widths.map((width) => '─'.repeat(width)).join('  ')}`);
  for (const line of table.slice(1)) console.log(text(line));
};

const outcomes = ROOMS.map(({ room, computations }) => ({
  room,
  outcomes: readRows(room).map((row) => tryRow(row, computations)),
}));
for (const { room, outcomes: own } of outcomes) print(room, own);

const all = outcomes.flatMap(({ outcomes: own }) => own);
const missed = all.filter(({ holds }) => !holds).length;
console.log('\nMarks: P published · W teaching page · M from memory · C computed independently · T common practice');
console.log(`${all.length} rows, ${missed} missed`);
process.exitCode = missed === 0 ? 0 : 1;
