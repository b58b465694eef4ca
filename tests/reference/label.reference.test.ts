import { describe, expect, it } from 'vitest';
import { checkDigitOf, hasRightCheckDigit } from '../../packages/domain/src/solution/label/check-digit.ts';
import { fullYear, readLabelDate } from '../../packages/domain/src/solution/label/dates.ts';
import { IDENTIFIERS, identifierAt } from '../../packages/domain/src/solution/label/identifiers.ts';
import reference from '../../shared/reference/labels.json' with { type: 'json' };

describe('check digits', () => {
  it.each(reference.checkDigits)('$digits ends with $check ($source; $mark)', ({ digits, check }) => {
    expect(checkDigitOf(digits)).toBe(check);
    expect(hasRightCheckDigit(`${digits}${check}`)).toBe(true);
  });
});

describe('dates of a label', () => {
  it.each(reference.dates)('$yymmdd is $date ($source; $mark)', ({ yymmdd, thisYear, date }) => {
    expect(readLabelDate(yymmdd, thisYear)).toEqual({ date });
  });
  it.each(reference.centuries)(
    'in $thisYear the digits $twoDigits are $year ($source; $mark)',
    ({ twoDigits, thisYear, year }) => expect(fullYear(twoDigits, thisYear)).toBe(year),
  );
});

describe(`identifiers (${reference.identifiers.source}; ${reference.identifiers.mark})`, () => {
  const published = reference.identifiers.rows.flatMap((row) => {
    const [, first, last = first, star, set, least, most] =
      /^(\d+)(?:-(\d+))? (\* )?([NXYZ])(\d+)-(\d+)$/.exec(row) ?? [];
    if (first === undefined) throw new Error(`Not a row: ${row}`);
    const count = Number(last) - Number(first) + 1;
    return Array.from({ length: count }, (_, index) => ({
      ai: String(Number(first) + index).padStart(first.length, '0'),
      predefined: star !== undefined,
      set,
      least: Number(least),
      most: Number(most),
    }));
  });

  it('are all there, each with its length, its characters and whether a separator follows, and no other', () => {
    const own = [...IDENTIFIERS.values()].map(({ ai, predefined, parts, least, most }) => {
      return { ai, predefined, set: parts[0]?.set, least, most };
    });
    const byIdentifier = (a: { ai: string }, b: { ai: string }) => (a.ai < b.ai ? -1 : 1);
    expect(own.sort(byIdentifier)).toEqual(published.sort(byIdentifier));
  });

  it('never begin with one another, so that none is read for another', () => {
    for (const { ai } of published) expect(identifierAt(`${ai}99`, 0)?.ai).toBe(ai);
  });
});
