import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDigitOf } from './check-digit.ts';
import { composeLabel } from './compose-label.ts';
import { fullYear } from './dates.ts';
import type { LabelProblem } from './label.ts';
import { labelProblemWords } from './label-words.ts';
import { readLabel } from './read-label.ts';
import { GS } from './split.ts';

/** 952: GS1's prefix for demonstrations. */
const GTIN = '09521234543213';
const YEAR = 2026;
const FULL = `01${GTIN}1727083110AB123${GS}21S-77`;

const label = (text: string) => {
  const read = readLabel(text, YEAR);
  if (read.is !== 'label') throw new Error(`not a label: ${JSON.stringify(read)}`);
  return read.label;
};
const problems = (text: string): readonly LabelProblem[] => {
  const read = readLabel(text, YEAR);
  return read.is === 'unreadable' ? read.problems : [];
};
const kinds = (text: string) => problems(text).map((problem) => problem.is);

describe('a label', () => {
  it.each(['', ']d2', ']C1', ']Q3', GS, `]d2${GS}`])('after %j gives product, expiry, lot and serial', (prefix) => {
    expect(label(prefix + FULL)).toMatchObject({
      gtin: GTIN,
      expiresOn: '2027-08-31',
      lot: 'AB123',
      serial: 'S-77',
      madeOn: null,
      count: null,
    });
  });
  it('typed in brackets, with blanks, gives the same', () => {
    const typed = ` (01) ${GTIN} (17)270831(10)AB123(21)S-77 `;
    expect({ ...label(typed), elements: [] }).toEqual({ ...label(FULL), elements: [] });
  });
  it('keeps what nothing here uses', () => {
    expect(label(`01${GTIN}240ART 9`.replace(' ', '/')).elements).toEqual([
      { ai: '01', value: GTIN, at: 3 },
      { ai: '240', value: 'ART/9', at: 20 },
    ]);
  });
  it('may have a needless separator after a predefined length, and one at its end', () => {
    expect(label(`01${GTIN}${GS}17270831${GS}10AB123${GS}`)).toMatchObject({ expiresOn: '2027-08-31', lot: 'AB123' });
  });
  it('may say the same twice', () => expect(label(`01${GTIN}01${GTIN}`).gtin).toBe(GTIN));
  it('with day 00 ends on the last day of the month', () => {
    expect(label(']d217280200').expiresOn).toBe('2028-02-29');
    expect(label(']d217270200').expiresOn).toBe('2027-02-28');
  });
});

describe('a plain product code', () => {
  it.each([
    ['9521234543213', '09521234543213'],
    [']E09521234543213', '09521234543213'],
    ['96385074', '00000096385074'],
    ['036000291452', '00036000291452'],
    ['09521234543213', '09521234543213'],
  ])('%s is known as such: it has no lot and no expiry', (text, gtin) => {
    expect(readLabel(text, YEAR)).toEqual({ is: 'productCode', gtin });
  });
  it('with a wrong check digit is said', () => {
    expect(problems('9521234543214')).toEqual([
      { is: 'checkDigit', ai: '01', value: '9521234543214', at: 13, found: '4', shouldBe: '3' },
    ]);
  });
});

describe('each way to be wrong is told apart', () => {
  it.each<[string, LabelProblem['is']]>([
    ['', 'empty'],
    [' \r\n', 'empty'],
    [']d2', 'empty'],
    ['HELLO', 'notGs1'],
    ['88123', 'notGs1'],
    [']C0AP 204655', 'notGs1'],
    [`]d288${GTIN}`, 'unknownIdentifier'],
    [`01${GTIN}88`, 'unknownIdentifier'],
    ['(01', 'brackets'],
    [`(01)${GTIN}(9)1`, 'tooLong'],
    [`01${GTIN.slice(0, 13)}4`, 'checkDigit'],
    [']d217271301', 'impossibleDate'],
    [']d217270230', 'impossibleDate'],
    [']d217270431', 'impossibleDate'],
    ['1727083', 'tooShort'],
    ['(17)2708310', 'tooLong'],
    [`10${'A'.repeat(21)}${GS}17270831`, 'tooLong'],
    [`10${'A'.repeat(21)}`, 'separatorMissing'],
    [`01${GTIN}10AB12317270831`, 'separatorMissing'],
    [`10AB12301${GTIN}17270831`, 'separatorMissing'],
    ['10', 'tooShort'],
    [`10ÄB${GS}`, 'wrongCharacter'],
    ['10A B', 'wrongCharacter'],
    ['1727083A', 'wrongCharacter'],
    ['1727083117270930', 'contradiction'],
  ])('%j: %s', (text, is) => {
    expect(kinds(text)).toContain(is);
    for (const problem of problems(text)) expect(labelProblemWords(problem)).toMatch(/^\S.*\.$/);
  });

  it('says month 13 and 31 April with what is allowed, and where', () => {
    expect(problems(']d217271301')[0]).toMatchObject({ wrong: 'month', at: 8, allowed: '01 to 12' });
    expect(problems(']d217270431')[0]).toMatchObject({ wrong: 'day', at: 10, allowed: '00 to 30' });
  });

  it('asks a person where a lot may have run on into an expiry, and not where the label has one', () => {
    expect(problems(`01${GTIN}10AB12317270831`)[0]).toMatchObject({ value: 'AB12317270831', tail: '17270831' });
    expect(label(`01${GTIN}1727083110AB12317270831`).lot).toBe('AB12317270831');
    expect(label(`01${GTIN}10AB12317271331`).lot).toBe('AB12317271331');
  });
});

describe('whatever is scanned', () => {
  const digits = (length: number) => fc.stringMatching(new RegExp(`^\\d{${length}}$`));
  const lot = fc.stringMatching(/^[A-Z]{1,20}$/);

  it('what was put together is read again', () => {
    const date = fc.date({ min: new Date('2000-01-01'), max: new Date('2075-12-31'), noInvalidDate: true });
    fc.assert(
      fc.property(digits(13), lot, lot, date, (key, batch, serial, day) => {
        const gtin = `${key}${checkDigitOf(key)}`;
        const iso = day.toISOString().slice(0, 10);
        const value = iso.slice(2).replaceAll('-', '');
        const text = composeLabel([
          { ai: '10', value: batch },
          { ai: '01', value: gtin },
          { ai: '21', value: serial },
          { ai: '17', value },
        ]);
        expect(label(text)).toMatchObject({ gtin, lot: batch, serial, expiresOn: iso });
      }),
    );
  });

  it('every wrong digit of a product code is caught', () => {
    fc.assert(
      fc.property(digits(13), fc.nat(13), fc.integer({ min: 1, max: 9 }), (key, place, by) => {
        const gtin = `${key}${checkDigitOf(key)}`;
        const other = String((Number(gtin[place]) + by) % 10);
        expect(kinds(`01${gtin.slice(0, place)}${other}${gtin.slice(place + 1)}`)).toEqual(['checkDigit']);
      }),
    );
  });

  it('the century is never further than 50 years off', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1950, max: 2150 }), fc.nat(99), (thisYear, twoDigits) => {
        const year = fullYear(twoDigits, thisYear);
        expect(year % 100).toBe(twoDigits);
        expect(year - thisYear).toBeGreaterThanOrEqual(-49);
        expect(year - thisYear).toBeLessThanOrEqual(50);
      }),
    );
  });
});
