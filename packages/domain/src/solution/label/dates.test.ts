import { describe, expect, it } from 'vitest';
import { readPrintedExpiry } from './dates.ts';

describe('an expiry as it is printed on a bag', () => {
  it('a day, or a month that ends on its last day', () => {
    expect(readPrintedExpiry('2027-08-31')).toBe('2027-08-31');
    expect(readPrintedExpiry('2027-08')).toBe('2027-08-31');
    expect(readPrintedExpiry('08-2027')).toBe('2027-08-31');
    // GS1 General Specifications: an expiry without a day means the last day of the month; 2016-02 ends on the 29th.
    expect(readPrintedExpiry('02/2016')).toBe('2016-02-29');
    expect(readPrintedExpiry('2013-02')).toBe('2013-02-28');
  });
  it('nothing typed is nothing read', () => expect(readPrintedExpiry('  ')).toBeNull());
  it.each(['2027-13', '2027-02-30', '31/08/2027', '08/31/2027', '27-08', 'August'])(
    '%s is refused, never rolled over',
    (text) => expect(readPrintedExpiry(text)).toBe('wrong'),
  );
});
