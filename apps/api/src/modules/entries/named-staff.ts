import type { Draft } from '@slackwater/domain';
import type { Pool } from 'pg';
import type { WardAccess } from '../../access/ward-access.ts';
import { notOnStaff } from './entries.errors.ts';

/** $1 site, $2 ward, $3 account, $4 the entry that names it: one that is written already asks nothing any more. */
const MAY_BE_NAMED = {
  name: 'entries-staff',
  text: `
    SELECT EXISTS (
      SELECT FROM account a
      JOIN account_role r ON r.site_id = a.site_id AND r.account_id = a.id AND r.ward_id = $2
      WHERE a.site_id = $1 AND a.id = $3 AND a.disabled_at IS NULL AND r.role <> 'wall'
    ) OR EXISTS (SELECT FROM entry WHERE site_id = $1 AND id = $4) AS may`,
};

/**
 * Whoever an alert is handed to, or a patient is assigned to, must be somebody who can come: an alert in the hands of a
 * wall display, or of nobody, would be kept from everybody else for as long as it is handed on.
 * @throws ProblemError `refused`
 */
export async function checkNamedStaff(pool: Pool, ward: WardAccess, drafts: readonly Draft[]) {
  for (const [index, draft] of drafts.entries()) {
    const [field, accountId] = namedIn(draft);
    if (accountId === null) continue;
    const values = [ward.siteId, ward.wardId, accountId, draft.id];
    const { rows } = await pool.query<{ may: boolean }>({ ...MAY_BE_NAMED, values });
    if (!rows[0]!.may) throw notOnStaff(index, field, accountId);
  }
}

function namedIn(draft: Draft): readonly [field: string, accountId: string | null] {
  if (draft.kind === 'alertHandedOn') return ['toAccountId', draft.payload.toAccountId];
  if (draft.kind === 'assigned') return ['accountId', draft.payload.accountId];
  return ['', null];
}
