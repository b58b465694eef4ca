import { describe, expect, it } from 'vitest';
import { accountChange } from './accounts.ts';
import { identityChange } from './patients.ts';
import { newWard } from './wards.ts';

const WARD = { id: 'kestrel', name: 'Kestrel Ward', zone: 'Europe/London', shiftStarts: ['07:00'] };

// Unicode 17.0, general categories Cf and Zs: format characters do not show, other spaces show as a space does
describe('a number, name or bed that would look like another and not be it', () => {
  const alike = [
    'KW 1 ',
    ' KW 1',
    'KW\u00a01',
    'KW 1\u200b',
    '\ufeffKW 1',
    'KW\u00ad 1',
    'KW\t1',
    'KW\n1',
    'KW\u20071',
  ];

  it.each(alike)('is refused: %j', (text) => {
    for (const field of ['hospitalNumber', 'family', 'given'] as const) {
      const [issue] = identityChange.safeParse({ [field]: text }).error?.issues ?? [];
      expect(issue?.path).toEqual([field]);
      expect(issue?.message).toMatch(/^one line of printable text, 1 to \d+ characters, no spaces around it$/);
    }
    expect(newWard.safeParse({ ...WARD, beds: ['KW 1', text] }).success).toBe(false);
    expect(accountChange.safeParse({ name: text }).error?.issues[0]?.path).toEqual(['name']);
  });

  it('is taken as people write it', () => {
    const names = ["O'Dwyer-Núñez", 'فاطمه‌سادات', '陳大文', 'van der Berg'];
    for (const family of names) expect(identityChange.parse({ family })).toEqual({ family });
    expect(newWard.safeParse({ ...WARD, beds: ['1', 'Bay 2/A'] }).success).toBe(true);
  });
});
