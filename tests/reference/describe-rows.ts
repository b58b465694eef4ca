import { describe, expect, it } from 'vitest';
import { type Computations, readRows, tryRow } from './rows.ts';

/** One test a row of `shared/reference/<room>.json`, named by quantity, source and mark. */
export const describeRows = (room: string, computations: Computations): void => {
  describe(`reference values: ${room}`, () => {
    const rows = readRows(room);

    it('has rows, each with a source, and uses every computation', () => {
      expect(rows.length).toBeGreaterThan(0);
      expect(rows.filter((row) => row.source === '' || !'PWMCT'.includes(row.mark))).toEqual([]);
      expect(new Set(rows.map((row) => row.compute))).toEqual(new Set(Object.keys(computations)));
    });

    for (const row of rows) {
      it(`${row.quantity} (${row.source}; ${row.mark})`, () => {
        const { got, holds } = tryRow(row, computations);
        const wanted = row.must === 'match' ? 'match' : 'differ from';
        expect(holds, `${got} must ${wanted} ${row.expected} ± ${row.tolerance} ${row.unit}`).toBe(true);
      });
    }
  });
};
