import { z } from 'zod';
import type { Conflict } from './entries/batch.ts';
import { PROBLEMS, type ProblemCode } from './problem-codes.ts';

/** One thing that is wrong: where, what was sent, what would be right. Passwords are never sent back. */
export type FieldProblem = { code: string; field: string; value: unknown; allowed: string; message: string };

export const fieldProblem = z.strictObject({
  code: z.string(),
  field: z.string(),
  value: z.unknown(),
  allowed: z.string(),
  message: z.string(),
});

/** Every failure is answered so (RFC 9457, `application/problem+json`). */
export type ProblemDocument = {
  /** A stable address of the kind of problem: `urn:slackwater:problem:<code>`. */
  type: string;
  code: ProblemCode;
  title: string;
  status: number;
  detail: string;
  /** The request's own number, to be found in the server's log. */
  instance: string;
  errors: readonly FieldProblem[];
  /** Only with `conflict`: what was recorded instead; null when it may not be seen. */
  conflict?: Conflict | null;
  /** Only with `tooManyAttempts`, `busy`, `full` and `unknownAfter`: when it makes sense to try again. */
  retryAfterS?: number;
};

export const problemCode = z.enum(Object.keys(PROBLEMS) as [ProblemCode, ...ProblemCode[]]);

export const problemDocument = z
  .strictObject({
    type: z.string(),
    code: problemCode,
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    instance: z.string(),
    errors: z.array(fieldProblem),
    conflict: z.looseObject({}).nullish(),
    retryAfterS: z.number().optional(),
  })
  .meta({ id: 'ProblemDocument', description: 'RFC 9457 problem details; `code` is the stable name of the failure.' });
