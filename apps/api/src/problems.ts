import type { Conflict, FieldProblem, ProblemCode } from '@slackwater/contract';
import { PROBLEMS } from '@slackwater/contract';

type More = { errors?: readonly FieldProblem[]; conflict?: Conflict | null; retryAfterS?: number };

/** A failure that the caller is told about; everything else is answered as `internal` and says nothing. */
export class ProblemError extends Error {
  readonly code: ProblemCode;
  readonly status: number;
  readonly more: More;

  constructor(code: ProblemCode, detail: string, more: More = {}) {
    super(detail);
    this.name = 'ProblemError';
    this.code = code;
    this.status = PROBLEMS[code].status;
    this.more = more;
  }
}

/** One field of the request is wrong. */
export const fieldProblem = (code: string, field: string, value: unknown, allowed: string): FieldProblem => ({
  code,
  field,
  value,
  allowed,
  message: `${field}: ${shown(value)} is not ${allowed}`,
});

/** The value as a sentence may quote it: JSON, at most 80 characters. */
export function shown(value: unknown): string {
  if (value === undefined) return 'nothing';
  const json = JSON.stringify(value) ?? String(value);
  return json.length > 80 ? `${json.slice(0, 79)}…` : json;
}

/** Whether the ward exists is not told to whom has no role there. */
export const noSuchWard = () => new ProblemError('notFound', 'There is no such ward, or you have no role on it.');
