import type { EpochMs } from '../time/instant.ts';
import { offsetAt, type Twice } from '../time/zone.ts';

/** The offset from UTC as people write it: `UTC+1`, `UTC+5:30`, `UTC−4`, `UTC+0`. */
export function formatUtcOffset(at: EpochMs, zone: string): string {
  const offset = offsetAt(at, zone);
  const minutes = offset.slice(4, 6);
  return `UTC${offset.startsWith('-') ? '−' : '+'}${Number(offset.slice(1, 3))}${minutes === '00' ? '' : `:${minutes}`}`;
}

/**
 * What tells the two instants of one local time apart: `summer time (UTC+1)` and `winter time (UTC+0)`. Where the clocks
 * go back for another reason than the end of summer: `before the clocks went back (UTC+1)` and `after (UTC+0)`.
 * Whether it is the end of summer, the names of the zone's times say (Unicode CLDR).
 */
export function twiceWords({ earlier, later }: Twice, zone: string): Record<keyof Twice, string> {
  const names = new Intl.DateTimeFormat('en-GB', { timeZone: zone, timeZoneName: 'long' });
  const isSummer = (at: EpochMs) => /summer|daylight/i.test(names.format(at));
  const [first, second] =
    isSummer(earlier) && !isSummer(later) ? ['summer time', 'winter time'] : ['before the clocks went back', 'after'];
  return {
    earlier: `${first} (${formatUtcOffset(earlier, zone)})`,
    later: `${second} (${formatUtcOffset(later, zone)})`,
  };
}
