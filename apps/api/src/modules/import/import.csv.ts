import { isUtf8 } from 'node:buffer';
import { Readable } from 'node:stream';
import { CsvError, type Info, parse } from 'csv-parse';

/** The file cannot be read as a sheet at all; nothing of it was looked at further. */
export class SheetError extends Error {}

/** A row of a CSV file by the names of its columns, or as it stands when it has too many fields or too few. */
export type CsvRecord<C extends string> =
  | { line: number; fields: Readonly<Record<C, string>> }
  | { line: number; found: number };

/** Longer than every column at its longest; a quote that is never closed ends here, not at the end of memory. */
const LONGEST_ROW = 16_384;

/**
 * Reads a CSV file strictly (RFC 4180: commas, double quotes, LF or CRLF), row by row, as it streams in. The first row
 * names the columns: exactly these, in any order. A byte order mark is skipped.
 * @throws SheetError for what is not UTF-8, a header that differs, a quote out of place
 */
export async function* readCsv<C extends string>(
  source: AsyncIterable<Uint8Array>,
  columns: readonly C[],
): AsyncGenerator<CsvRecord<C>> {
  const parser = parse({
    bom: true,
    info: true,
    record_delimiter: ['\r\n', '\n'],
    relax_column_count: true,
    max_record_size: LONGEST_ROW,
  });
  // A failure of the source reaches whoever reads the parser, and nobody else.
  Readable.from(utf8Lines(source))
    .on('error', (error) => parser.destroy(error))
    .pipe(parser);
  let header: readonly C[] | null = null;
  try {
    for await (const { record, info } of parser as AsyncIterable<{ record: string[]; info: Info }>) {
      if (header === null) header = headerOf(record, columns);
      else if (record.length !== header.length) yield { line: info.lines, found: record.length };
      else yield { line: info.lines, fields: fieldsOf(header, record) };
    }
  } catch (error) {
    throw error instanceof CsvError ? new SheetError(csvWords(error)) : error;
  }
  if (header === null) throw new SheetError('The file is empty: its first line names the columns.');
}

function fieldsOf<C extends string>(header: readonly C[], record: readonly string[]): Record<C, string> {
  const fields = {} as Record<C, string>;
  for (const [index, column] of header.entries()) fields[column] = record[index]!;
  return fields;
}

function headerOf<C extends string>(record: readonly string[], columns: readonly C[]): readonly C[] {
  const missing = columns.filter((column) => !record.includes(column));
  const unknown = record.filter((name, index) => !columns.includes(name as C) || record.indexOf(name) !== index);
  if (missing.length === 0 && unknown.length === 0) return record as C[];
  const wrong = [
    ...(missing.length > 0 ? [`lacks ${missing.join(', ')}`] : []),
    ...(unknown.length > 0
      ? [`has ${unknown.map((name) => JSON.stringify(name.slice(0, 60))).join(', ')} too many`]
      : []),
  ];
  throw new SheetError(`Line 1 ${wrong.join(' and ')}; the columns are ${columns.join(', ')}, each once.`);
}

const csvWords = (error: CsvError): string =>
  error.code === 'CSV_MAX_RECORD_SIZE'
    ? `Line ${error.lines}: a row is longer than ${LONGEST_ROW} characters, or a quote is never closed.`
    : `Line ${error.lines}: a quote stands where none may: a field with a comma or a quote is quoted whole, a quote in it doubled.`;

const NEWLINE = 0x0a;

/** Passes the bytes on in blocks of whole lines, after looking that they are UTF-8. */
async function* utf8Lines(source: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
  let rest: Uint8Array = new Uint8Array();
  let line = 1;
  const look = (block: Uint8Array): Uint8Array => {
    if (!isUtf8(block)) throw new SheetError(`Line ${line + badLine(block)} is not UTF-8: save the file as UTF-8.`);
    for (const byte of block) if (byte === NEWLINE) line += 1;
    return block;
  };
  for await (const chunk of source) {
    const end = chunk.lastIndexOf(NEWLINE) + 1;
    if (end === 0) {
      rest = Buffer.concat([rest, chunk]);
      if (rest.length > 4 * LONGEST_ROW) throw new SheetError(`Line ${line} is longer than any row of a sheet.`);
      continue;
    }
    yield look(Buffer.concat([rest, chunk.subarray(0, end)]));
    rest = chunk.subarray(end);
  }
  if (rest.length > 0) yield look(rest);
}

/** How many lines of the block stand before the first that is not UTF-8. */
function badLine(block: Uint8Array): number {
  let start = 0;
  for (let lines = 0; ; lines += 1) {
    const end = block.indexOf(NEWLINE, start) + 1 || block.length;
    if (!isUtf8(block.subarray(start, end)) || end === block.length) return lines;
    start = end;
  }
}
