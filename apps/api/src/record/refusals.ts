import { randomUUID } from 'node:crypto';
import type { Problem } from '@slackwater/domain';
import type { Batch } from './batch.ts';
import { iso } from './instants.ts';
import type { Queryable } from './standing.ts';
import { KEEP_REFUSED } from './statements.sql.ts';

/** Keeps what was refused, with the reasons: nothing that a nurse typed is lost. */
export async function keepRefused(db: Queryable, batch: Batch, problems: readonly Problem[]): Promise<void> {
  const rows = batch.drafts.map((draft) => ({
    id: randomUUID(),
    entry_id: draft.id,
    patient_id: draft.patientId,
    kind: draft.kind,
    draft,
  }));
  await db.query({
    ...KEEP_REFUSED,
    values: [
      batch.siteId,
      batch.wardId,
      batch.author.accountId,
      iso(batch.deviceAt),
      JSON.stringify(rows),
      JSON.stringify(problems),
    ],
  });
}
