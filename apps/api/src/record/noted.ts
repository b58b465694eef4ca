import { randomUUID } from 'node:crypto';
import type { AuditKind } from '@slackwater/contract';
import type { Entry, Payloads } from '@slackwater/domain';

/** What of an entry is noted in the audit beside it: who, whom and which entry, never its words. */
export type Noted = {
  id: string;
  ward_id: string;
  patient_id: string | null;
  account_id: string;
  action: AuditKind;
  detail: { entry: string; step: string };
};

/** The notes of entries with which somebody went on against a stop, or changed what a ward decides for itself. */
export const notedOf = (entries: readonly Entry[]): Noted[] =>
  entries.flatMap((entry) => {
    const { id, kind, wardId, patientId, author } = entry;
    const action = actionOf(entry);
    if (action === null || author === null) return [];
    const detail = { entry: id, step: kind };
    return [{ id: randomUUID(), ward_id: wardId, patient_id: patientId, account_id: author, action, detail }];
  });

const overrodeIf = (went: boolean): AuditKind | null => (went ? 'overrode' : null);

const wentOnFilling = ({ guardOverride, bagOverride, despiteOrder }: Payloads['startFill']): boolean =>
  guardOverride !== null || bagOverride !== undefined || despiteOrder !== undefined;

function actionOf(entry: Entry): AuditKind | null {
  switch (entry.kind) {
    case 'settingsChanged':
      return 'changedSettings';
    case 'suppliesChanged':
      return 'changedSupplies';
    case 'prepare':
      return overrodeIf(entry.payload.override !== null || entry.payload.despiteOrder !== undefined);
    case 'startDrain':
      return overrodeIf(entry.payload.early !== undefined);
    case 'startFill':
      return overrodeIf(wentOnFilling(entry.payload));
    case 'leftWard':
      return overrodeIf(entry.payload.undrained !== undefined);
    case 'calledFirst':
      return overrodeIf(entry.payload.by === 'override');
    default:
      return null;
  }
}
