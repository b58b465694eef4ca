import { dateAt } from '@slackwater/domain/time/zone';
import { useState } from 'react';
import { serverClock } from '../../../../api/clock.ts';
import { wardQuery } from '../../../../api/queries.ts';
import { queryClient } from '../../../../api/query-client.ts';
import { useBoard } from '../../../../live/use-ward.ts';
import { useBedside } from '../../bedside-context.ts';
import type { PrepareDraft } from '../prepare-draft.ts';
import { readScan, type Scan } from './read-scan.ts';

/** The draft after a scan. What a scan does not say of another bag is not kept from the one before. */
const scannedInto = (draft: PrepareDraft, scan: Scan): PrepareDraft => {
  if (scan.is === 'wristband') {
    return {
      ...draft,
      wristband: scan.whose === 'this' ? { whose: 'this' } : { whose: 'other', bed: scan.bed },
    };
  }
  if (scan.is === 'wrong') return draft;
  const { lot, expiresOn } = scan.label;
  const fresh = { ...draft, called: null, notSo: [], lot: lot ?? '', expiresOn: expiresOn ?? '', typing: false };
  if (scan.is === 'unknownProduct') return { ...fresh, bag: null, label: scan.text };
  const { solutionId, labelledMl } = scan.product;
  return { ...fresh, bag: { solutionId, labelledMl }, label: scan.text };
};

/** Reads scans into the draft of the prepare screen. */
export const useScans = (draft: PrepareDraft, setDraft: (draft: PrepareDraft) => void) => {
  const { view, policy, ward } = useBedside();
  const { rows } = useBoard(ward.id);
  const [last, setLast] = useState<{ text: string; scan: Scan } | null>(null);
  const read = (text: string, supplies = policy.supplies) => {
    const thisYear = Number(dateAt(serverClock.now(), ward.zone).slice(0, 4));
    const on = [...(rows?.byId.values() ?? [])];
    const scan = readScan(text, { patient: view.patient, ward: on, supplies, thisYear });
    setLast({ text, scan });
    setDraft(scannedInto(draft, scan));
  };
  return {
    last: last?.scan ?? null,
    read: (text: string) => read(text),
    /** Once the product of the last scan was listed. */
    again: () => {
      const known = queryClient.getQueryData(wardQuery(ward.id).queryKey)?.policy.supplies;
      if (last && known) read(last.text, known);
    },
    forget: () => setLast(null),
    /** The wristband is read by eye instead. */
    forgetWristband: () => {
      const { wristband: _, ...rest } = draft;
      setDraft(rest);
    },
  };
};
