import { describe, expect, it } from 'vitest';
import { daysProblem, NO_FILTER, queryOf } from './audit-filter.ts';

describe('a filter of the audit', () => {
  it('asks for nothing that was not said', () => {
    expect(queryOf({ ...NO_FILTER, hospitalNumber: '  ' }, 'UTC').toString()).toBe('');
  });

  it('holds both days whole, also the one of 25 hours on which London’s clocks go back', () => {
    const query = queryOf({ ...NO_FILTER, fromDay: '2026-10-25', toDay: '2026-10-25' }, 'Europe/London');
    // 25-Oct-2026: summer time ends (IANA time zone database)
    expect(query.get('from')).toBe(String(Date.parse('2026-10-25T00:00+01:00')));
    expect(query.get('to')).toBe(String(Date.parse('2026-10-26T00:00+00:00')));
  });

  it('says when the last day lies before the first', () => {
    expect(daysProblem({ ...NO_FILTER, fromDay: '2026-10-25', toDay: '2026-10-24' })).not.toBeNull();
    expect(daysProblem({ ...NO_FILTER, fromDay: '2026-10-25', toDay: '2026-10-25' })).toBeNull();
    expect(daysProblem({ ...NO_FILTER, toDay: '2026-10-24' })).toBeNull();
  });
});
