import { ProblemError } from '../../problems.ts';
import { wrongWords } from './import.problems.ts';
import type { NotImported } from './import.usecases.ts';

/** The file is no flow sheet: nothing of it was looked at further. */
export const noSheet = (words: string) => new ProblemError('invalid', `${words} Nothing was imported.`);

export const tooLarge = (mostBytes: number) =>
  new ProblemError('tooLarge', `A sheet has at most ${mostBytes / 1_000_000} MB: use npm run import on the server.`);

export const stalled = () => noSheet('The file stopped arriving.');

/** As many sheets as may come in at once are coming in. */
export const others = (mostAtOnce: number) =>
  new ProblemError('busy', `${mostAtOnce} other flow sheets are coming in: send this one when they are through.`, {
    retryAfterS: 10,
  });

/** Rows are bad: all are counted, the first are listed. */
export function badRows({ rows, bad }: NotImported): ProblemError {
  const listed = new Set(bad.listed.map(({ line }) => line)).size;
  const more = bad.count > listed ? ` The first ${listed} are listed.` : '';
  return new ProblemError('refused', `${bad.count} of ${rows} rows are bad.${more} Nothing was imported.`, {
    errors: bad.listed.map((problem) => ({
      code: 'badRow',
      field: problem.column === 'line' ? `line ${problem.line}` : `line ${problem.line}, ${problem.column}`,
      value: problem.value,
      allowed: problem.allowed,
      message: wrongWords(problem),
    })),
  });
}
