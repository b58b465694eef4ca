import type { WardPolicy } from '../ward/policy.ts';
import { formatClock, formatMinutes, formatMl } from '../words/numbers.ts';
import type { Facts } from './rule.ts';

type Fact = Facts[string] | undefined;

/** A fact that is an instant, as a clock time; missing is said, never invented. */
export const clockOf = (fact: Fact, policy: Pick<WardPolicy, 'zone'>): string =>
  typeof fact === 'number' ? formatClock(fact, policy.zone) : 'a time not known';

/** A fact that is a length in minutes, in words. */
export const minutesOf = (fact: Fact): string => (typeof fact === 'number' ? formatMinutes(fact) : 'a time not known');

/** A fact that is a volume in mL, in words. */
export const mlOf = (fact: Fact): string => (typeof fact === 'number' ? formatMl(fact) : 'a volume not known');

/** A fact that is text or a number without a unit. */
export const textOf = (fact: Fact): string => (fact === undefined || fact === null ? 'not known' : String(fact));
