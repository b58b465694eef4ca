import { describe, expect, it } from 'vitest';
import { LONDON } from '../testing/bedside.ts';
import { SETTINGS } from '../ward/settings.ts';
import type { Comfort } from './effluent.ts';
import { FINDINGS, findingsOfAppearance, findingsOfComfort, findingsOfExitSite } from './finding.ts';
import { RESPONSE_KEYS, RESPONSE_MOST_CHARACTERS, withTexts } from './response-texts.ts';
import { nextWords, RESPONSES, responseTo } from './responses.ts';

const WELL: Comfort = { pain: 0, phase: null, cramp: false, breathless: false, leakAtExit: false, swelling: false };
const felt = (change: Partial<Comfort>) => findingsOfComfort({ ...WELL, ...change }, LONDON.settings);

describe('what an appearance asks for', () => {
  it('clear nothing, several at once the gravest first', () => {
    expect(findingsOfAppearance(['clear'])).toEqual([]);
    expect(findingsOfAppearance(['fibrin', 'pink', 'cloudy', 'brown'])).toEqual(['brown', 'cloudy', 'pink', 'fibrin']);
  });
});

describe('what comfort asks for', () => {
  it('nothing when the patient is well, or pain was not asked for', () => {
    expect(felt({})).toEqual([]);
    expect(felt({ pain: null, phase: 'newOrConstant' })).toEqual([]);
  });

  it('pain by its phase, and severe from the ward’s number on', () => {
    expect(felt({ pain: 3, phase: 'startOfFill' })).toEqual(['painAtFill']);
    expect(felt({ pain: 3, phase: 'endOfDrain' })).toEqual(['painAtDrainEnd']);
    expect(felt({ pain: 3, phase: 'shoulder' })).toEqual(['shoulderPain']);
    expect(felt({ pain: SETTINGS.severePainFrom.default - 1 })).toEqual([]);
    expect(felt({ pain: SETTINGS.severePainFrom.default, phase: 'newOrConstant' })).toEqual([
      'severePain',
      'newOrConstantPain',
    ]);
  });

  it('a leak, a swelling by its place, and sudden outflow', () => {
    expect(felt({ leakAtExit: true, swellingAt: ['genitals'] })).toEqual(['leakAtExit', 'swelling']);
    expect(felt({ sudden: ['wateryStool', 'urine'] })).toEqual(['suddenUrine', 'wateryStool']);
  });
});

describe('what an exit site asks for', () => {
  const site = { pus: false, swelling: 0, crust: 0, redness: 0, pain: 0, drainage: 0 } as const;
  // Pus alone, or 4 and more of 10 (from memory); under that nothing is excluded (Clin Nephrol 2014;81:100).
  it('infection from a score of 4 or pus alone; under it signs that do not exclude one', () => {
    expect(findingsOfExitSite(site)).toEqual([]);
    expect(findingsOfExitSite({ ...site, redness: 2, crust: 1 })).toEqual(['exitSiteSigns']);
    expect(findingsOfExitSite({ ...site, redness: 2, crust: 2 })).toEqual(['exitSiteInfection']);
    expect(findingsOfExitSite({ ...site, pus: true })).toEqual(['exitSiteInfection']);
    expect(RESPONSES.exitSiteSigns.source).toContain('64 %');
  });
});

describe('the table of responses', () => {
  it.each(FINDINGS)('has for %s what to do, a source and a mark, within the ward’s limits', (finding) => {
    const { title, doNow, tell, send, source, mark } = RESPONSES[finding];
    for (const words of [title, doNow, source]) expect(words.trim()).not.toBe('');
    expect('PWMCT').toContain(mark);
    const texts = { [`${finding}.doNow`]: doNow, [`${finding}.tell`]: tell, [`${finding}.send`]: send };
    expect(withTexts({}, texts).problems).toEqual([]);
  });

  it('says what to send of cloudy effluent: bottles before any antibiotic, within 6 h, at 37 °C (RCP review, Box 2)', () => {
    const words = nextWords('cloudy', LONDON);
    for (const part of ['before any antibiotic', 'within 6 h', '37 °C', 'Gram stain', 'the physician']) {
      expect(words).toContain(part);
    }
  });

  it('gives way to the ward’s own words, part by part, and says which', () => {
    const policy = { ...LONDON, responses: { 'cloudy.tell': 'The renal registrar on call' } };
    expect(responseTo('cloudy', policy)).toMatchObject({
      tell: 'The renal registrar on call',
      doNow: RESPONSES.cloudy.doNow,
      wardsOwn: ['tell'],
    });
    expect(nextWords('cloudy', policy)).toContain('Tell: the renal registrar on call.');
  });
});

describe('the ward’s own words', () => {
  it('are laid over those that stand; an empty one gives the default back', () => {
    const before = { 'pink.doNow': 'Ask the charge nurse' } as const;
    expect(withTexts(before, { 'cloudy.tell': 'Bleep 4031' }).responses).toEqual({
      ...before,
      'cloudy.tell': 'Bleep 4031',
    });
    expect(withTexts(before, { 'pink.doNow': '' }).responses).toEqual({});
  });

  it.each([
    ['too long', 'x'.repeat(RESPONSE_MOST_CHARACTERS + 1)],
    ['too many lines', '\n'.repeat(9)],
    ['a control character', 'ring \u0007'],
    ['a character that turns the direction of writing', 'ring \u202e404'],
    ['half a pair', 'ring \ud800'],
    ['a number', 5],
  ])('with %s are refused, and nothing is changed', (_what, value) => {
    const { responses, problems } = withTexts({ 'pink.tell': 'Nobody' }, { 'cloudy.tell': value, 'pink.tell': 'All' });
    expect(responses).toEqual({ 'pink.tell': 'Nobody' });
    expect(problems).toMatchObject([{ code: 'out-of-range', field: 'cloudy.tell' }]);
  });

  it('have a key for every part of every response', () => {
    expect(RESPONSE_KEYS).toHaveLength(FINDINGS.length * 3);
  });
});
