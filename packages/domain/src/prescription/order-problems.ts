import type { Payloads } from '../record/entry.ts';
import type { Problem } from '../record/problem.ts';
import type { WardPolicy } from '../ward/policy.ts';
import { leastDwellMinutes } from './additive.ts';
import { additiveProblems, dwellTooShortFor } from './additive-problems.ts';
import { awayProblems } from './away-problems.ts';
import { solutionProblem } from './problems.ts';
import { outOfRange } from './ranges.ts';

const MOST_RINSES = 10;

/**
 * What is wrong with an order as it is written, each with its field, its value and what is allowed; [] = nothing.
 * Whether its times still lie ahead is a matter of when it is given: `orderTimeProblems`.
 */
export function orderProblems(payload: Payloads['ordered'], policy: WardPolicy): readonly Problem[] {
  return [...contentProblems(payload, policy), telephoneProblem(payload)].filter((problem) => problem !== null);
}

function contentProblems({ content }: Payloads['ordered'], policy: WardPolicy): readonly (Problem | null)[] {
  const { filledMostMl, drainedMostMl, dwellLeastMinutes, dwellMostMinutes } = policy.settings;
  const dwell = (value: number) =>
    outOfRange('content.dwellMinutes', value, dwellLeastMinutes, dwellMostMinutes, 'min');
  switch (content.what) {
    case 'drainAndStayEmpty':
      return [
        content.emptyUntil > content.drainBy ? null : untilProblem(content.emptyUntil),
        ...(content.away ? awayProblems(content, content.away) : []),
      ];
    case 'rinse':
      return [
        solutionProblem('content.solutionId', content.solutionId, policy),
        outOfRange('content.volumeMl', content.volumeMl, 1, filledMostMl, 'mL'),
        outOfRange('content.rinses', content.rinses, 1, MOST_RINSES, 'rinses'),
      ];
    case 'sample':
      return [
        dwell(content.dwellMinutes),
        content.sample.trim() === '' ? missing('content.sample', 'what is to be sampled') : null,
      ];
    case 'partialDrain':
      return [outOfRange('content.volumeMl', content.volumeMl, 1, drainedMostMl, 'mL')];
    case 'oneExchange':
      return [
        solutionProblem('content.solutionId', content.solutionId, policy),
        outOfRange('content.fillMl', content.fillMl, 1, filledMostMl, 'mL'),
        content.dwellMinutes === null ? null : dwell(content.dwellMinutes),
        ...additiveProblems(content.additives, 'content.additives', policy.settings),
        // As prescribed could be any length by the time that the bag is hung.
        content.dwellMinutes === null && leastDwellMinutes(content.additives) > 0
          ? missing('content.dwellMinutes', 'how long the bag with the antibiotic dwells')
          : dwellTooShortFor(content.additives, content.dwellMinutes, 'content.dwellMinutes'),
      ];
    case 'drainNow':
    case 'dueAt':
      return [];
  }
}

/**
 * What of an order lies in the past, or too far off, at the instant it is given.
 * @param givenAt when the order was given
 */
export function orderTimeProblems(
  { content }: Payloads['ordered'],
  givenAt: number,
  policy: WardPolicy,
): readonly Problem[] {
  const times =
    content.what === 'drainAndStayEmpty'
      ? {
          'content.drainBy': content.drainBy,
          ...(content.away && {
            'content.away.leavesAt': content.away.leavesAt,
            'content.away.backAt': content.away.backAt,
          }),
          'content.emptyUntil': content.emptyUntil,
        }
      : content.what === 'dueAt'
        ? { 'content.dueAt': content.dueAt }
        : {};
  const reachMs = 2 * policy.settings.dwellMostMinutes * 60_000;
  return Object.entries(times).flatMap(([field, at]) => {
    if (at >= givenAt && at <= givenAt + reachMs) return [];
    const allowed = `from when it is given to ${(2 * policy.settings.dwellMostMinutes) / 60} h later`;
    const message = `${field} lies ${at < givenAt ? 'before the order was given' : 'too far ahead'}; allowed is ${allowed}.`;
    return [{ code: 'out-of-range', field, value: at, allowed, message }];
  });
}

const untilProblem = (value: number): Problem => ({
  code: 'out-of-order',
  field: 'content.emptyUntil',
  value,
  allowed: 'later than content.drainBy',
  message: 'content.emptyUntil is not later than content.drainBy: the cavity is empty from the drain until then.',
});

const missing = (field: string, allowed: string): Problem => ({
  code: 'missing',
  field,
  value: '',
  allowed,
  message: `${field} is empty; say ${allowed}.`,
});

/** By telephone somebody gave it, and it was read back. */
function telephoneProblem({ telephone }: Payloads['ordered']): Problem | null {
  if (telephone === null) return null;
  if (telephone.physician.trim() === '') return missing('telephone.physician', 'who gave the order');
  return telephone.readBack ? null : missing('telephone.readBack', 'that it was read back');
}
