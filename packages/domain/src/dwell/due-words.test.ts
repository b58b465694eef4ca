import { expect, it } from 'vitest';
import { LONDON, policyIn } from '../testing/bedside.ts';
import { dueWords } from './due-words.ts';

it('says which rule gave the time, with the ward’s own numbers', () => {
  expect(dueWords({ what: 'drain', rule: 'clockMinimum', ask: false }, LONDON)).toBe(
    'The fill was late: at least 2 h after it, or the planned dwell.',
  );
  const ninety = policyIn('UTC', { clockMinimumMinutes: 90 });
  expect(dueWords({ what: 'drain', rule: 'clockMinimum', ask: false }, ninety)).toContain('1 h 30 min');
  expect(dueWords({ what: 'fill', rule: 'afterDrain', ask: false }, LONDON)).toBe('30 min after the drain.');
});

it('asks where the tool is not sure', () => {
  expect(dueWords({ what: 'drain', rule: 'clockFar', ask: true }, LONDON)).toMatch(/4 h .*right\?$/);
  expect(dueWords({ what: 'drain', rule: 'length', ask: true }, LONDON)).toMatch(/shortest.*right\?$/);
});
