import type { EpochMs } from '@slackwater/domain/time/instant';
import { instantOf, plusDays } from '@slackwater/domain/time/zone';

/** What stands in the fields; an empty one lets everything through. Days are calendar days, both in it. */
export type TypedFilter = {
  accountId: string;
  hospitalNumber: string;
  wardId: string;
  kind: string;
  fromDay: string;
  toDay: string;
};

export const NO_FILTER: TypedFilter = {
  accountId: '',
  hospitalNumber: '',
  wardId: '',
  kind: '',
  fromDay: '',
  toDay: '',
};

/** Why the days make no span of time; null when they do. */
export const daysProblem = ({ fromDay, toDay }: TypedFilter): string | null =>
  fromDay !== '' && toDay !== '' && fromDay > toDay ? 'The last day lies before the first' : null;

/** The question to the server, without a page. @param zone in which the days begin and end */
export function queryOf(typed: TypedFilter, zone: string): URLSearchParams {
  const dayStart = (day: string): EpochMs => instantOf(day, '00:00', zone);
  const { accountId, wardId, kind, fromDay, toDay } = typed;
  const asked = {
    accountId,
    hospitalNumber: typed.hospitalNumber.trim(),
    wardId,
    kind,
    from: fromDay && String(dayStart(fromDay)),
    to: toDay && String(dayStart(plusDays(toDay, 1))),
  };
  return new URLSearchParams(Object.entries(asked).filter(([, value]) => value !== ''));
}
