import { describe, expect, it } from 'vitest';
import type { BedsideState } from '../bedside/state.ts';
import type { Comfort } from '../effluent/effluent.ts';
import type { SaidComfort } from '../peritonitis/work-up.ts';
import { at, bedsideOf, drainOf, dwellOf, LONDON } from '../testing/bedside.ts';
import { conditionsAt } from './rules.ts';
import { alertWords } from './words.ts';

const NOON = at('2026-11-25T12:00Z');
const DAY = 24 * 3_600_000;
const WELL: Comfort = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };

const said = (comfort: Partial<Comfort>, change: Partial<SaidComfort> = {}): SaidComfort => ({
  entryId: 'said',
  at: NOON,
  visitId: 'visit',
  when: 'drain',
  comfort: { ...WELL, ...comfort },
  ...change,
});

const conditions = (change: Partial<BedsideState>) => conditionsAt(bedsideOf(change), NOON, LONDON);
const found = (...comforts: SaidComfort[]) => conditions({ comforts }).map(({ kind, rank }) => `${rank} ${kind}`);

describe('what the patient says', () => {
  it.each<[string, Partial<Comfort>, string[]]>([
    ['well', {}, []],
    ['cramp', { cramp: true }, []],
    ['breathless', { breathless: true }, ['high breathless']],
    ['a leak', { leakAtExit: true }, ['medium leakOrSwelling']],
    ['swelling of the flank', { swellingAt: ['flank'] }, ['medium leakOrSwelling']],
    ['pain 6 as the fill starts', { pain: 6, phase: 'startOfFill' }, []],
    ['severe pain', { pain: 7 }, ['high painToCall']],
    ['new pain', { pain: 2, phase: 'newOrConstant' }, ['medium painToCall']],
    ['watery stool', { sudden: ['wateryStool'] }, ['high suddenOutflow']],
  ])('%s', (_what, comfort, expected) => {
    expect(found(said(comfort))).toEqual(expected);
  });

  it('twice at one drain is one alert, at drain and fill two, and the graver word counts', () => {
    const first = said({ pain: 3, phase: 'newOrConstant' }, { entryId: 'one', at: NOON - 60_000 });
    const second = said({ pain: 8, phase: 'newOrConstant' }, { entryId: 'two' });
    expect(found(second, first)).toEqual(['high painToCall']);
    expect(found({ ...second, when: 'fill' }, first)).toEqual(['medium painToCall', 'high painToCall']);
  });

  it('of an earlier stay raises nothing', () => {
    const admitted = { wardId: 'kestrel', bed: '7', admittedAt: NOON + 1, dialysis: 'chronic', offWard: null } as const;
    expect(conditions({ stay: admitted, comforts: [said({ breathless: true })] })).toEqual([]);
  });
});

describe('sudden “urine” or watery stool', () => {
  const rank = (catheterInsertedAt: number | null) =>
    conditions({ comforts: [said({ sudden: ['urine'] })], catheterInsertedAt })[0]?.rank;
  it('is high while the catheter is new, or of an age not known', () => {
    expect(rank(null)).toBe('high');
    expect(rank(NOON - 30 * DAY)).toBe('high');
    expect(rank(NOON - 31 * DAY)).toBe('medium');
  });
});

describe('an exit site', () => {
  const site = {
    entryId: 'site',
    at: NOON,
    swelling: 0,
    crust: 0,
    redness: 2,
    pain: 1,
    drainage: 0,
    note: null,
  } as const;
  it('of 4 and more, or with pus, is taken for an infection; the words say what a low score is worth', () => {
    expect(conditions({ exitSite: { ...site, pus: false } })).toEqual([]);
    expect(conditions({ exitSite: { ...site, pus: false, crust: 1 } })[0]?.facts.because).toBe('score');
    const [alert] = conditions({ exitSite: { ...site, pus: true } });
    expect(alertWords(alert!, LONDON).why).toContain('sensitivity 64 %');
  });
});

describe('a bloody drain', () => {
  const drain = (hour: string, appearance: 'bloody' | 'clear') =>
    dwellOf(
      [
        drainOf(at(`2026-11-25T${hour}:00Z`), at(`2026-11-25T${hour}:15Z`), {
          entryId: hour,
          appearance: [appearance],
        }),
      ],
      {
        id: hour,
      },
    );
  const ranks = (...looks: ('bloody' | 'clear')[]) =>
    conditions({ lastDwells: looks.map((look, index) => drain(String(11 - index).padStart(2, '0'), look)) })
      .filter(({ kind }) => kind === 'effluentBloody')
      .map(({ cause, rank }) => `${cause} ${rank}`);
  it('is of medium rank first; high when the one before was bloody too, since it does not clear', () => {
    expect(ranks('bloody')).toEqual(['11 medium']);
    expect(ranks('bloody', 'clear')).toEqual(['11 medium']);
    expect(ranks('bloody', 'bloody')).toEqual(['11 high', '10 medium']);
  });
});
