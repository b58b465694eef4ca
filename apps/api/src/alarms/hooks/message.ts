import { createHmac } from 'node:crypto';
import { ALERT_TITLES, type AlertNotice, type EpochMs } from '@slackwater/domain';
import { uuidOfContent } from '../../record/entry-id.ts';
import { iso, isoOrNull } from '../../record/instants.ts';
import type { Hook } from './hook.ts';

/** A row of `delivery`, to be written with the entry that it is about. */
export type DeliveryRow = { id: string; ward_id: string; target: string; body: unknown };

/**
 * What a paging system is told of a notice. A bed, a kind, a rank: no patient, no name, no free text. Instants as ISO
 * 8601, as Standard Webhooks has it: receivers are not ours.
 */
const bodyOf = (siteId: string, { event, at, wardId, bed, alert }: AlertNotice) => ({
  type: `alert.${event}`,
  timestamp: iso(at),
  data: {
    alert: alert.id,
    site: siteId,
    ward: wardId,
    bed,
    kind: alert.kind,
    title: ALERT_TITLES[alert.kind],
    rank: alert.rank,
    since: iso(alert.since),
    raisedAt: iso(alert.raisedAt),
    settingsVersion: alert.settingsVersion,
    escalatedTo: alert.escalatedTo,
    ownedUntil: isoOrNull(alert.owner?.until ?? null),
    link: `/ward/${encodeURIComponent(wardId)}/alerts`,
  },
});

/** One delivery for each notice and each hook that is told of its rank; the same notice makes the same ids. */
export const deliveriesOf = (
  siteId: string,
  hooks: readonly Hook[],
  notices: readonly AlertNotice[],
): readonly DeliveryRow[] =>
  notices.flatMap((notice) =>
    hooks
      .filter(({ ranks }) => ranks.includes(notice.alert.rank))
      .map(({ url }) => ({
        id: uuidOfContent(JSON.stringify([siteId, notice.entryId, url])),
        ward_id: notice.wardId,
        target: url,
        body: bodyOf(siteId, notice),
      })),
  );

/**
 * The headers that prove a message, by Standard Webhooks: HMAC-SHA256 over id, time of the attempt in seconds and body.
 * @param at the time of the attempt: receivers refuse old ones
 */
export function signed({ key }: Hook, id: string, at: EpochMs, body: string): Record<string, string> {
  const timestamp = String(Math.floor(at / 1000));
  const signature = createHmac('sha256', key).update(`${id}.${timestamp}.${body}`, 'utf8').digest('base64');
  return { 'webhook-id': id, 'webhook-timestamp': timestamp, 'webhook-signature': `v1,${signature}` };
}
