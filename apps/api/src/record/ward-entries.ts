import { changedPolicy, type Entry, mayWrite } from '@slackwater/domain';
import { type AppendResult, type Batch, failed } from './batch.ts';
import { problem } from './failures.ts';
import type { Queryable, Standing } from './standing.ts';
import { write } from './write.ts';

/** Writes an entry of the ward itself: a new version of its settings. `null`: somebody else wrote that version first. */
export async function appendToWard(db: Queryable, batch: Batch, standing: Standing): Promise<AppendResult | null> {
  const [draft] = batch.drafts;
  if (batch.drafts.length !== 1 || draft?.kind !== 'settingsChanged') {
    return failed({
      code: 'refused',
      problems: [
        problem(
          'patient-missing',
          'entries.0.patientId',
          null,
          'the id of a patient',
          'This kind of entry is about a patient.',
        ),
      ],
    });
  }
  if (!mayWrite(batch.author.role, draft.kind, draft.payload)) {
    return failed({
      code: 'refused',
      problems: [
        problem('not-allowed', 'entries.0.kind', draft.kind, 'a manager', 'Your role may not change the settings.'),
      ],
    });
  }
  const next = standing.policy.version + 1;
  if (draft.payload.version !== next) {
    return failed({
      code: 'taken',
      problems: [
        problem(
          'version-taken',
          'entries.0.payload.version',
          draft.payload.version,
          String(next),
          `The next version is ${next}.`,
        ),
      ],
    });
  }
  const { settings, responses, problems } = changedPolicy(standing.policy, draft.payload.changes);
  if (problems.length > 0) {
    return failed({
      code: 'refused',
      problems: problems.map((one) => ({ ...one, field: `entries.0.payload.changes.${one.field}` })),
    });
  }
  const entry = {
    ...draft,
    siteId: batch.siteId,
    wardId: batch.wardId,
    deviceAt: batch.deviceAt,
    receivedAt: standing.now,
    author: batch.author.accountId,
    position: 0,
  } as Entry;
  const written = await write(db, {
    siteId: batch.siteId,
    wardId: batch.wardId,
    bedsides: [],
    entries: [entry],
    rows: {},
    replace: false,
    settings: { version: next, settings: { ...settings, ...responses }, entryId: draft.id },
  });
  if (written === null) return null;
  const { receivedAt, position } = written;
  return {
    ok: true,
    appended: {
      receipts: [{ id: draft.id, position, receivedAt, happenedAt: draft.happenedAt }],
      bedside: null,
      position,
    },
  };
}
