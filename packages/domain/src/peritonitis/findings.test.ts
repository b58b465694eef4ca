import { describe, expect, it } from 'vitest';
import type { Entry, Payloads } from '../record/entry.ts';
import { peritonitisCriteria } from './criteria.ts';
import { findingsOf, type LaboratoryResults } from './findings.ts';

const entry = <K extends 'appearance' | 'comfort'>(kind: K, payload: Payloads[K]): Entry =>
  ({ kind, payload }) as unknown as Entry;
const looks = (...appearance: NonNullable<Payloads['appearance']['appearance']>): Entry =>
  entry('appearance', { drain: 1, appearance, note: null });
const feels = (pain: number | null): Entry =>
  entry('comfort', {
    phase: 'drain',
    comfort: { pain, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false },
  });

const NOTHING_YET: LaboratoryResults = { count: null, culture: { state: 'pending' } };

describe('findingsOf', () => {
  it('knows nothing before anybody looked or asked', () => {
    expect(findingsOf([], NOTHING_YET)).toMatchObject({ cloudy: null, pain: null });
    expect(findingsOf([feels(null)], NOTHING_YET).pain).toBeNull();
  });

  it('tells clear from not looked at, and no pain from not asked', () => {
    expect(findingsOf([looks('clear'), feels(0)], NOTHING_YET)).toMatchObject({ cloudy: false, pain: false });
  });

  it('keeps a cloudy drain, whatever the next one looked like', () => {
    expect(findingsOf([looks('cloudy', 'fibrin'), looks('clear')], NOTHING_YET).cloudy).toBe(true);
  });

  it('fills the criteria up as results come', () => {
    const bedside = [looks('cloudy'), feels(4)];
    const diagnosis = (results: LaboratoryResults) =>
      peritonitisCriteria(findingsOf(bedside, results)).value!.diagnosis;
    const count = { whiteCellsPerUl: 1200, polymorphPercent: 88, dwellMinutes: 240 };
    expect(diagnosis(NOTHING_YET)).toBe('open');
    expect(diagnosis({ count, culture: { state: 'pending' } })).toBe('peritonitis');
    expect(diagnosis({ count: { ...count, polymorphPercent: 20 }, culture: { state: 'sterile' } })).toBe(
      'notByTheseCriteria',
    );
  });
});
