import type { ShareOf } from '@slackwater/domain';

/** "1 alert", "31 alerts". */
export const countOf = (count: number, what: string): string =>
  `${count.toLocaleString('en-GB')} ${what}${count === 1 ? '' : 's'}`;

/** A share in whole percent; "under 1 %" rather than a zero that is none. null: nothing to count. */
export const percentOf = (share: ShareOf | null): string | null => {
  if (share === null) return null;
  if (share.count > 0 && share.percent < 1) return 'under 1 %';
  return `${Math.round(share.percent)} %`;
};

/** A rate with as many figures as it bears; "under 0.01" rather than a zero that is none. */
export const rateOf = (rate: number): string => {
  if (rate === 0) return '0';
  return rate < 0.01 ? 'under 0.01' : rate.toFixed(rate < 1 ? 2 : 1);
};

/** Time of nurses, in hours. */
export const hoursOf = (minutes: number): string => {
  const hours = minutes / 60;
  return `${hours < 10 ? hours.toFixed(1) : Math.round(hours).toLocaleString('en-GB')} h`;
};
