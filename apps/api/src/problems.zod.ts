import type { FieldProblem } from '@slackwater/contract';
import type { z } from 'zod';
import { shown } from './problems.ts';

/** Fields whose value is never sent back. */
const SECRET = /password|token/i;

/** The longest value that a problem repeats, in characters of JSON. */
const LONGEST_VALUE = 200;

/**
 * What zod found, as problems that name the field, the value and what would be right.
 * @param within where the data stood, for problems of the whole: `body`, `querystring`, `params`
 * @param under where in it they stood, if not at its top: `entries.0.payload`
 */
export const problemsOf = (error: z.ZodError, within: string, under: readonly PropertyKey[] = []): FieldProblem[] =>
  error.issues.flatMap((issue) =>
    issue.code === 'unrecognized_keys'
      ? issue.keys.map((key) => unknownKey(fieldOf([...under, ...issue.path, key], within)))
      : [one(issue, fieldOf([...under, ...issue.path], within))],
  );

type Issue = z.core.$ZodIssue;

const fieldOf = (path: readonly PropertyKey[], within: string) => path.map(String).join('.') || within;

const unknownKey = (field: string): FieldProblem => ({
  code: 'unknownField',
  field,
  value: null,
  allowed: 'not given',
  message: `${field}: there is no such field`,
});

function one(issue: Issue, field: string): FieldProblem {
  const allowed = allowedBy(issue);
  const value = SECRET.test(field) ? null : repeatable(issue.input);
  const said = SECRET.test(field) ? 'what was given' : shown(issue.input);
  return { code: issue.code, field, value, allowed, message: `${field}: ${said} is not ${allowed}` };
}

const repeatable = (value: unknown) =>
  value === undefined || (JSON.stringify(value)?.length ?? 0) > LONGEST_VALUE ? null : value;

const list = (values: readonly unknown[]) => values.map(String).join(', ');

/** The schemas of the contract say their range in their message; zod's own messages are put into the same form. */
function allowedBy(issue: Issue): string {
  if (!/^(Invalid|Too|Unrecognized)/.test(issue.message)) return issue.message;
  switch (issue.code) {
    case 'invalid_value':
      return issue.values.length === 1 ? list(issue.values) : `one of ${list(issue.values)}`;
    case 'invalid_union':
      return 'options' in issue && Array.isArray(issue.options) ? `one of ${list(issue.options)}` : 'of the right form';
    case 'invalid_type':
      return `a value of type ${issue.expected}`;
    case 'too_small':
      return `${issue.minimum} or more${sizeOf(issue.origin)}`;
    case 'too_big':
      return `${issue.maximum} or less${sizeOf(issue.origin)}`;
    case 'invalid_format':
      return `a valid ${issue.format}`;
    default:
      return 'of the right form';
  }
}

const sizeOf = (origin: string) => (origin === 'string' ? ' characters' : origin === 'array' ? ' of them' : '');
