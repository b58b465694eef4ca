import { describe, expect, it } from 'vitest';
import { NO_RESULT, type ResultDraft, readResult } from './result-draft.ts';

const read = (change: Partial<ResultDraft>) => readResult({ ...NO_RESULT, ...change }, 'work-up');

describe('a report as it is typed', () => {
  it('needs a unit for its count: the same number is a thousand times more in another', () => {
    expect(read({ whiteCells: '0.48' }).missing).toContain('the unit of the count');
    expect(read({ whiteCells: '0.48', unit: '10*9/L' }).perUl).toBe(480);
    expect(read({ whiteCells: '480', unit: '10*6/L' }).perUl).toBe(480);
  });

  it('asks about a count that looks like a wrong unit, and takes none that cannot be', () => {
    expect(read({ whiteCells: '20', unit: '10*9/L' }).asks).toBe(false);
    expect(read({ whiteCells: '100', unit: '10*9/L' }).asks).toBe(true);
    expect(read({ whiteCells: '4800', unit: '10*9/L' }).missing).toEqual(['a possible count: look at its unit']);
  });

  it('takes a part of the results, and not none', () => {
    expect(read({}).missing).toEqual(['a result']);
    expect(read({ gramStain: 'Gram-positive cocci' }).missing).toEqual([]);
    expect(read({ culture: 'pending' }).payload.culture).toEqual({ state: 'pending' });
    expect(read({ polymorphs: '80' }).missing).toEqual(['the count']);
  });

  it('names what has grown, one or more', () => {
    expect(read({ culture: 'grown' }).missing).toEqual(['what has grown']);
    expect(read({ culture: 'grown', organisms: 'Escherichia coli, Enterococcus faecalis' }).payload.culture).toEqual({
      state: 'grown',
      organisms: ['Escherichia coli', 'Enterococcus faecalis'],
    });
  });
});
