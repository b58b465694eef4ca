import type { BedsideState, Payloads } from '@slackwater/domain';

export type Purpose = Payloads['prepare']['purpose'];

/** What the nurse looks at by eye and hand. */
export type EyeCheck = 'wristband' | 'expiry' | 'noLeak' | 'clear' | 'warmed' | 'mixed';

/** What stands on the prepare screen and not yet in the record. */
export type PrepareDraft = {
  purpose: Purpose | null;
  bag: { solutionId: string; labelledMl: number } | null;
  /** As typed; '' = read by eye only. */
  expiresOn: string;
  lot: string;
  notSo: readonly EyeCheck[];
  /** Who was called before a strong bag; goes into the record with the preparation. */
  called: Payloads['calledFirst'] | null;
  /** Expiry and lot are to be typed. */
  typing: boolean;
};

export const EMPTY_PREPARE: PrepareDraft = {
  purpose: null,
  bag: null,
  expiresOn: '',
  lot: '',
  notSo: [],
  called: null,
  typing: false,
};

/** What the visit is for, unless the nurse says otherwise: an empty cavity is filled, a held patient only drained. */
export const proposedPurpose = (state: BedsideState, hasBag: boolean): Purpose => {
  if (state.cavity.state === 'empty') return 'fillOnly';
  const stayEmpty = state.orders.some((order) => order.content.what === 'drainAndStayEmpty' && order.endedAt === null);
  return hasBag && !stayEmpty ? 'exchange' : 'drainOnly';
};

/**
 * Reads an expiry as it is printed: `2027-08-31`, or a month `2027-08` or `08-2027`, which ends on its last day.
 * @returns the ISO date; null when nothing is typed; 'wrong' when it is no date
 */
export const readExpiry = (typed: string): string | null | 'wrong' => {
  const text = typed.trim();
  if (text === '') return null;
  const day = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  const month = /^(\d{4})-(\d{2})$/.exec(text);
  const turned = /^(\d{2})[-/](\d{4})$/.exec(text);
  const [year, monthOfYear, dayOfMonth] = day
    ? [Number(day[1]), Number(day[2]), Number(day[3])]
    : month
      ? [Number(month[1]), Number(month[2]), null]
      : turned
        ? [Number(turned[2]), Number(turned[1]), null]
        : [null, null, null];
  if (year === null || monthOfYear < 1 || monthOfYear > 12) return 'wrong';
  const lastDay = new Date(Date.UTC(year, monthOfYear, 0)).getUTCDate();
  const date = dayOfMonth ?? lastDay;
  if (date < 1 || date > lastDay) return 'wrong';
  return `${year}-${String(monthOfYear).padStart(2, '0')}-${String(date).padStart(2, '0')}`;
};
