import type { Problem } from '../record/problem.ts';
import type { WardSettings } from '../ward/settings.ts';
import { formatMinutes } from '../words/numbers.ts';
import { type Additive, leastDwellMinutes } from './additive.ts';
import { outOfRange } from './ranges.ts';

const MOST_ADDITIVES = 6;
const LEAST_AMOUNT = 0.001;
const MOST_AMOUNT = 1_000_000;

type Found = readonly (Problem | null)[];

/**
 * What is wrong with what goes into one bag. The amount is taken as ordered: no dose is judged.
 * @param field path of the list
 */
export function additiveProblems(additives: readonly Additive[], field: string, settings: WardSettings): Found {
  const names = additives.map(({ what }) => what.trim().toLowerCase());
  const twice = names.find((name, index) => names.indexOf(name) !== index);
  return [
    outOfRange(field, additives.length, 0, MOST_ADDITIVES, 'additives'),
    twice === undefined
      ? null
      : {
          code: 'twice',
          field,
          value: twice,
          allowed: 'each additive once',
          message: `${field} holds "${twice}" twice; each additive stands once, with its whole amount.`,
        },
    ...additives.flatMap((additive, index) => oneProblems(additive, `${field}[${index}]`, settings)),
  ];
}

function oneProblems(
  { what, amount, unit, kind, minimumDwellMinutes }: Additive,
  field: string,
  settings: WardSettings,
): Found {
  return [
    what.trim() === '' ? missing(`${field}.what`, 'the substance') : null,
    amount === null
      ? missing(`${field}.amount`, 'the amount as ordered')
      : outOfRange(`${field}.amount`, amount, LEAST_AMOUNT, MOST_AMOUNT, unit ?? ''),
    unit === null ? missing(`${field}.unit`, 'the unit as ordered') : null,
    minimumDwellMinutes === null
      ? kind === 'antibiotic'
        ? missing(`${field}.minimumDwellMinutes`, 'how long the antibiotic must dwell, 0 min if it need not')
        : null
      : outOfRange(`${field}.minimumDwellMinutes`, minimumDwellMinutes, 0, settings.dwellMostMinutes, 'min'),
  ];
}

const missing = (field: string, allowed: string): Problem => ({
  code: 'missing',
  field,
  value: null,
  allowed,
  message: `${field} is missing; say ${allowed}.`,
});

/**
 * A dwell that ends before an additive of its bag may be drained.
 * @param dwellMinutes of the bag, as ordered; null = it cannot be known
 * @param field path of the dwell
 */
export function dwellTooShortFor(
  additives: readonly Additive[],
  dwellMinutes: number | null,
  field: string,
): Problem | null {
  const least = leastDwellMinutes(additives);
  if (dwellMinutes === null || dwellMinutes >= least) return null;
  const names = additives.filter((one) => (one.minimumDwellMinutes ?? 0) > dwellMinutes).map(({ what }) => what);
  const allowed = `${least} min at the least with ${names.join(' and ')}`;
  const message = `${field} is ${dwellMinutes} min; ${names.join(' and ')} must dwell ${formatMinutes(least)} at the least.`;
  return { code: 'too-short-for-additive', field, value: dwellMinutes, allowed, message };
}
