import { composeLabel } from '../../../packages/domain/src/solution/label/compose-label.ts';
import { readLabel } from '../../../packages/domain/src/solution/label/read-label.ts';
import type { Row } from '../harness/measure.ts';
import { median, quartiles } from '../harness/quantiles.ts';

const LABELS = 1000;

/** Labels as bags carry them: product, expiry, lot, serial number. */
const labels = Array.from({ length: LABELS }, (_, index) =>
  composeLabel([
    { ai: '01', value: '09521234543213' },
    { ai: '17', value: '270831' },
    { ai: '10', value: `AB${index}` },
    { ai: '21', value: `S${index}` },
  ]),
);

/** Labels read a second, by one core. */
export const label: Row = {
  name: 'label',
  async run({ pace }) {
    const perSecond: number[] = [];
    for (let round = -3; round < 20; round += 1) {
      let read = 0;
      const startedAt = performance.now();
      while (performance.now() - startedAt < pace.windowMs / 20) {
        for (const text of labels) readLabel(text, 2026);
        read += LABELS;
      }
      // the first ones compile what later ones only run
      if (round >= 0) perSecond.push((read / (performance.now() - startedAt)) * 1000);
    }
    return [
      {
        what: 'labels read by the domain, one core',
        value: median(perSecond),
        unit: '/s',
        bar: { at: 'least', value: 100_000 },
        quartiles: quartiles(perSecond),
        beside: 'product, expiry, lot and serial number each',
      },
    ];
  },
};
