import { z } from 'zod';
import { instant, text, uuid } from '../primitives.ts';

/** The life of an alert, as people write it; what the tool itself writes never comes over the wire. */
export const ALERT_PAYLOADS = {
  alertAcknowledged: z.strictObject({ alertId: uuid, until: instant }),
  alertHandedOn: z.strictObject({ alertId: uuid, toAccountId: uuid, until: instant }),
  alertSnoozed: z.strictObject({ alertId: uuid, until: instant }),
  alertCleared: z.strictObject({ alertId: uuid, by: z.literal('person'), reason: text(500) }),
};
