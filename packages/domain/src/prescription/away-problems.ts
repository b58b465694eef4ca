import type { Problem } from '../record/problem.ts';
import type { Away, OrderContent } from './prescription.ts';

type StayEmpty = Extract<OrderContent, { what: 'drainAndStayEmpty' }>;

/**
 * What is wrong with the way to theatre or imaging: drained before leaving, back after leaving, empty until back. Each
 * with its field, its value and what is allowed.
 */
export function awayProblems(
  { drainBy, emptyUntil }: Pick<StayEmpty, 'drainBy' | 'emptyUntil'>,
  { where, why, leavesAt, backAt }: Away,
): readonly (Problem | null)[] {
  return [
    where.trim() === '' ? missing('content.away.where', 'where the patient goes') : null,
    why.trim() === '' ? missing('content.away.why', 'what for') : null,
    drainBy <= leavesAt
      ? null
      : outOfOrder('content.drainBy', drainBy, 'not later than content.away.leavesAt', leavesAt),
    backAt > leavesAt ? null : outOfOrder('content.away.backAt', backAt, 'later than content.away.leavesAt', leavesAt),
    emptyUntil >= backAt
      ? null
      : outOfOrder('content.emptyUntil', emptyUntil, 'not earlier than content.away.backAt', backAt),
  ];
}

const missing = (field: string, allowed: string): Problem => ({
  code: 'missing',
  field,
  value: '',
  allowed,
  message: `${field} is empty; say ${allowed}.`,
});

const outOfOrder = (field: string, value: number, rule: string, than: number): Problem => {
  const allowed = `${rule}, ${new Date(than).toISOString()}`;
  return {
    code: 'out-of-order',
    field,
    value,
    allowed,
    message: `${field} is ${new Date(value).toISOString()}; allowed is ${allowed}.`,
  };
};
