import {
  changedPolicy,
  type Draft,
  type Entry,
  mayWrite,
  type Problem,
  within,
  withSupplyChange,
} from '@slackwater/domain';
import { type AppendResult, type Batch, failed } from './batch.ts';
import { type AppendFailure, problem } from './failures.ts';
import type { Queryable, Standing } from './standing.ts';
import { type Write, write } from './write.ts';

/** Entries that are about no patient. */
type WardDraft = Draft<'settingsChanged' | 'suppliesChanged'>;

/**
 * Writes an entry of the ward itself: a new version of its settings, or of the hospital's products and recalls.
 * `null`: somebody else wrote that version first.
 */
export async function appendToWard(db: Queryable, batch: Batch, standing: Standing): Promise<AppendResult | null> {
  const [draft, ...others] = batch.drafts;
  if (draft === undefined || others.length > 0 || !isOfWard(draft)) return failed(needsPatient());
  if (!mayWrite(batch.author.role, draft.kind, draft.payload)) return failed(notAllowed(draft));
  const changed = draft.kind === 'settingsChanged' ? newSettings(draft, standing) : newSupplies(draft, standing);
  if ('code' in changed) return failed(changed);
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
    ...changed,
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

const isOfWard = (draft: Draft): draft is WardDraft =>
  draft.kind === 'settingsChanged' || draft.kind === 'suppliesChanged';

const needsPatient = (): AppendFailure => ({
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

const notAllowed = ({ kind }: WardDraft): AppendFailure => ({
  code: 'refused',
  problems: [
    kind === 'settingsChanged'
      ? problem('not-allowed', 'entries.0.kind', kind, 'a manager', 'Your role may not change the settings.')
      : problem(
          'not-allowed',
          'entries.0.kind',
          kind,
          'a charge nurse or manager',
          'Your role may not change products and recalls.',
        ),
  ],
});

const refused = (path: string, problems: readonly Problem[]): AppendFailure => ({
  code: 'refused',
  problems: problems.map((one) => within(path, one)),
});

type Changed = Pick<Write, 'settings' | 'supplies'>;

/** Settings name the version they make: whoever did not see the newest is told so. */
function newSettings(draft: Draft<'settingsChanged'>, { policy }: Standing): Changed | AppendFailure {
  const next = policy.version + 1;
  const { version, changes } = draft.payload;
  if (version !== next) {
    const words = `The next version is ${next}.`;
    const field = 'entries.0.payload.version';
    return { code: 'taken', problems: [problem('version-taken', field, version, String(next), words)] };
  }
  const { settings, responses, problems } = changedPolicy(policy, changes);
  if (problems.length > 0) return refused('entries.0.payload.changes', problems);
  return { settings: { version: next, settings: { ...settings, ...responses }, entryId: draft.id } };
}

/** Each change stands by itself, and is judged on what stands when it is written. A recall holds from its arrival. */
function newSupplies(draft: Draft<'suppliesChanged'>, standing: Standing): Changed | AppendFailure {
  const { policy, now, formularyVersion } = standing;
  const entry = { id: draft.id, at: now };
  const { supplies, problems } = withSupplyChange(policy.supplies, draft.payload.change, entry, policy.formulary);
  if (problems.length > 0) return refused('entries.0.payload.change', problems);
  return { settings: null, supplies: { ...supplies, version: formularyVersion + 1, entryId: draft.id } };
}
