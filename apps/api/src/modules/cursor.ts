import type { z } from 'zod';
import { invalid } from '../problems.handler.ts';
import { fieldProblem } from '../problems.ts';

/** A place in a list, as text that only this server reads. */
export const writeCursor = (place: Readonly<Record<string, string | number>>): string =>
  Buffer.from(JSON.stringify(place)).toString('base64url');

/**
 * @returns the place; null without a cursor
 * @throws ProblemError `invalid` for one that this server has not written
 */
export function readCursor<T>(cursor: string | undefined, place: z.ZodType<T>): T | null {
  if (cursor === undefined) return null;
  try {
    return place.parse(JSON.parse(Buffer.from(cursor, 'base64url').toString()));
  } catch {
    throw invalid([fieldProblem('cursor', 'cursor', cursor, 'the nextCursor of an earlier answer')]);
  }
}
