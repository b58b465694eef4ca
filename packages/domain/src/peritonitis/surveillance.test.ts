import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isoDate } from '../units/dates.ts';
import { countEpisodes } from './counting.ts';
import type { Culture, Episode } from './episode.ts';
import { type DialysisPeriod, patientDays, spansByPatient } from './patient-days.ts';
import { surveillance } from './surveillance.ts';

const grown = (organism: string): Culture => ({ state: 'grown', organisms: [organism] });
const AUREUS = grown('Staphylococcus aureus');

const episode = (over: Partial<Episode> & Pick<Episode, 'diagnosedOn'>): Episode => ({
  id: over.diagnosedOn,
  patientId: 'a',
  treatedUntil: null,
  culture: AUREUS,
  dialysis: 'chronic',
  ...over,
});

const period = (over: Partial<DialysisPeriod>): DialysisPeriod => ({
  patientId: 'a',
  from: '2025-01-01',
  to: null,
  dialysis: 'chronic',
  ...over,
});

describe('countEpisodes', () => {
  it('leaves a relapse out of the count and keeps recurrence and repeat in, whatever the order of arrival', () => {
    const story = [
      episode({ diagnosedOn: '2025-02-01', treatedUntil: '2025-02-15' }),
      episode({ diagnosedOn: '2025-03-01', treatedUntil: '2025-03-20' }),
      episode({ diagnosedOn: '2025-04-01', treatedUntil: '2025-04-15', culture: grown('Escherichia coli') }),
      episode({ diagnosedOn: '2025-07-01', treatedUntil: '2025-07-15', culture: grown('escherichia COLI') }),
    ];
    const counted = countEpisodes(story.toReversed());
    expect(counted.map(({ relation, counts }) => [relation, counts])).toEqual([
      ['new', true],
      ['relapsing', false],
      ['recurrent', true],
      ['repeat', true],
    ]);
  });

  it('counts an episode whose culture is open and says why its relation is not known', () => {
    const [, second] = countEpisodes([
      episode({ diagnosedOn: '2025-02-01', treatedUntil: '2025-02-15' }),
      episode({ diagnosedOn: '2025-02-20', culture: { state: 'pending' } }),
    ]);
    expect(second).toMatchObject({ relation: null, counts: true, issues: [{ code: 'culture-open' }] });
  });

  it('never relates the episodes of two patients', () => {
    const counted = countEpisodes([
      episode({ diagnosedOn: '2025-02-01', treatedUntil: '2025-02-15' }),
      episode({ diagnosedOn: '2025-02-20', patientId: 'b' }),
    ]);
    expect(counted.map((each) => each.relation)).toEqual(['new', 'new']);
  });
});

describe('patientDays', () => {
  const YEAR = { from: '2025-01-01', to: '2025-12-31' };

  it('counts both ends', () => {
    const one = spansByPatient([period({ from: '2025-03-01', to: '2025-03-01' })], false);
    expect(patientDays(one, YEAR)).toBe(1);
    expect(patientDays(spansByPatient([period({})], false), YEAR)).toBe(365);
  });

  it('leaves acute dialysis out unless the ward says so', () => {
    const periods = [period({ dialysis: 'acute', from: '2025-01-01', to: '2025-01-10' })];
    expect(patientDays(spansByPatient(periods, false), YEAR)).toBe(0);
    expect(patientDays(spansByPatient(periods, true), YEAR)).toBe(10);
  });

  it('is the same however a period is cut, and counts a day once where the pieces overlap', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 20_000, max: 20_300 }),
        fc.integer({ min: 0, max: 200 }),
        fc.array(fc.integer({ min: 0, max: 200 }), { maxLength: 5 }),
        fc.boolean(),
        (first, length, cuts, overlap) => {
          const last = first + length;
          const edges = [...new Set(cuts.map((cut) => first + (cut % (length + 1))))].sort((a, b) => a - b);
          const starts = [first, ...edges.map((edge) => edge + (overlap ? 0 : 1))].filter((day) => day <= last);
          const ends = [...edges, last].slice(0, starts.length);
          const pieces = starts.map((from, i) =>
            period({ from: isoDate(from), to: isoDate(Math.max(from, ends[i] ?? last)) }),
          );
          const whole = [period({ from: isoDate(first), to: isoDate(last) })];
          const window = { from: isoDate(19_900), to: isoDate(20_700) };
          expect(patientDays(spansByPatient(pieces.toReversed(), false), window)).toBe(
            patientDays(spansByPatient(whole, false), window),
          );
        },
      ),
    );
  });
});

describe('surveillance', () => {
  const window = { from: '2025-01-01', to: '2026-03-31' };
  const patients = Array.from({ length: 30 }, (_, i) => period({ patientId: `p${i}` }));
  const input = {
    episodes: [
      episode({ diagnosedOn: '2025-02-10', patientId: 'p0', treatedUntil: '2025-02-24' }),
      episode({ diagnosedOn: '2025-03-02', patientId: 'p0', treatedUntil: '2025-03-16' }),
      episode({ diagnosedOn: '2025-06-30', patientId: 'p1', culture: { state: 'sterile' } }),
      episode({ diagnosedOn: '2026-03-31', patientId: 'p2' }),
    ],
    periods: patients,
    window,
    includeAcute: false,
  };

  it('adds its months up to the whole: days, episodes, and the rate', () => {
    const { months, whole } = surveillance(input).value!;
    expect(months).toHaveLength(15);
    expect(months.reduce((sum, month) => sum + month.patientDays, 0)).toBe(30 * (365 + 90));
    expect(months.reduce((sum, month) => sum + month.episodes, 0)).toBe(3);
    expect(whole!.episodes).toBe(3);
    expect(whole!.perYear.estimate).toBeCloseTo((3 * 365) / (30 * 455), 12);
  });

  it('gives a rolling year from the twelfth month on, over just those twelve', () => {
    const { months } = surveillance(input).value!;
    expect(months[10]!.rollingYear).toBeNull();
    expect(months[11]!.rollingYear).toMatchObject({ episodes: 2, patientDays: 30 * 365 });
    expect(months[14]!.rollingYear).toMatchObject({ episodes: 2, patientDays: 30 * 365 });
  });

  it('gives shares with exact limits: 27 of 30 free, 1 of 3 cultures sterile', () => {
    const { peritonitisFree, cultureNegative } = surveillance(input).value!;
    expect(peritonitisFree!.estimate).toBeCloseTo(27 / 30, 12);
    expect(cultureNegative!.estimate).toBeCloseTo(1 / 3, 12);
    expect(cultureNegative!.lower).toBeLessThan(0.05);
  });

  it('is invariant under splitting person-time', () => {
    const split = patients.flatMap((each) => [
      { ...each, to: '2025-05-17' },
      { ...each, from: '2025-05-18' },
    ]);
    expect(surveillance({ ...input, periods: split })).toEqual(surveillance(input));
  });

  it('leaves out an episode outside the days at risk, and names it', () => {
    const result = surveillance({
      ...input,
      episodes: [...input.episodes, episode({ diagnosedOn: '2025-05-05', patientId: 'nobody' })],
    });
    expect(result.value!.whole!.episodes).toBe(3);
    expect(result.issues).toMatchObject([{ code: 'outside-days-at-risk', value: { diagnosedOn: '2025-05-05' } }]);
  });

  it('has no rate, not a rate of zero, without days at risk', () => {
    const nobody = surveillance({ ...input, episodes: [], periods: [] }).value!;
    expect(nobody).toMatchObject({ whole: null, peritonitisFree: null, cultureNegative: null });
  });

  it('refuses days that do not exist and periods that end before they start', () => {
    const result = surveillance({
      ...input,
      window: { from: '2026-02-30', to: '2026-03-31' },
      periods: [period({ from: '2025-02-02', to: '2025-02-01' })],
    });
    expect(result.value).toBeNull();
    expect(result.issues.map((issue) => [issue.field, issue.code])).toEqual([
      ['window.from', 'not-a-date'],
      ['periods[0].to', 'dates-out-of-order'],
    ]);
  });
});
