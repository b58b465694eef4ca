import { isPrintable, type LotView, lotView } from '@slackwater/contract';
import { z } from 'zod';
import { signedInBy } from '../../access/access.plugin.ts';
import type { Parts } from '../parts.ts';
import { wardParams } from '../patients/patients.params.ts';
import type { Router } from '../router.ts';
import { fillsWithoutLot, usesOfLot } from './lots.repository.ts';

const query = z.strictObject({
  lot: z.string().trim().min(1, 'a lot, as it is printed').max(60).refine(isPrintable, 'printable text'),
});

const MOST_USES = 500;
const UNREAD_DAYS = 30;

/** Which patients had a lot: asked when one is recalled. */
export function lotRoutes(app: Router, { access, pool }: Parts) {
  app.get(
    '/api/wards/:ward/lots',
    {
      schema: {
        summary: 'Which patients had a bag of a lot, on all wards that you may read',
        description: 'Compared without blanks and without regard to capitals.',
        tags: ['supplies'],
        params: wardParams,
        querystring: query,
        response: { 200: lotView },
      },
    },
    async (request): Promise<LotView> => {
      const by = signedInBy(request);
      const ward = access.openWard(by, request.params.ward, 'readPatient');
      const { lot } = request.query;
      const found = await usesOfLot(pool, ward, lot, MOST_USES + 1);
      const uses = found.slice(0, MOST_USES);
      const unreadFills = await fillsWithoutLot(pool, ward, UNREAD_DAYS);
      const patients = [...new Set(uses.map(({ patient }) => patient.id))];
      const about = { accountId: by.accountId, address: request.ip, wardId: ward.wardId };
      await access.audit.note({ action: 'searchedLot', ...about, detail: { lot, found: patients } });
      return { uses, more: found.length > MOST_USES, unreadFills, unreadDays: UNREAD_DAYS };
    },
  );
}
