import { randomBytes } from 'node:crypto';
import fc from 'fast-check';
import { Webhook } from 'standardwebhooks';
import { expect, it } from 'vitest';
import { signed } from './message.ts';
import { waitAfterMs } from './retry.ts';

// Against the package standardwebhooks, by the authors of the specification.
it('signs any message as the specification does', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'grapheme' }), fc.uuid(), fc.date({ noInvalidDate: true }), (body, id, date) => {
      const key = randomBytes(32);
      const headers = signed({ url: '', key, ranks: [] }, id, date.getTime(), body);
      expect(headers['webhook-signature']).toBe(new Webhook(`whsec_${key.toString('base64')}`).sign(id, date, body));
      expect(headers['webhook-timestamp']).toBe(String(Math.floor(date.getTime() / 1000)));
    }),
  );
});

it('waits longer after each try, from 5 s to half an hour', () => {
  expect([1, 2, 3, 4].map(waitAfterMs)).toEqual([5_000, 10_000, 20_000, 40_000]);
  expect(waitAfterMs(10_000)).toBe(30 * 60_000);
});
