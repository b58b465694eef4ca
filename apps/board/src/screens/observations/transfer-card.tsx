import type { OtherWardsView } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Select } from '../../ui/select.tsx';
import { act } from '../bedside/model/batch.ts';
import { Card } from './card.tsx';
import { LeaveDialog } from './leave-dialog.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';

const useOtherWards = (wardId: string, enabled: boolean) =>
  useQuery({
    queryKey: ['ward', wardId, 'others'],
    queryFn: ({ signal }) => api.get<OtherWardsView>(`/api/wards/${encodeURIComponent(wardId)}/others`, { signal }),
    staleTime: 0,
    enabled,
  });

/** A transfer is written as one, leaving here and arriving there; the fluid inside goes along, and is told of first. */
export const TransferCard = ({ observing }: { observing: Observing }) => {
  const { patient, transfer, at } = observing;
  const [draft, setDraft] = useDraft(`transfer:${patient.patientId}`, { to: '', bed: '' });
  const [leaving, setLeaving] = useState(false);
  const toWardId = draft.to.trim();
  const mayMove = patient.mayDo('admitAndMove');
  const others = useOtherWards(patient.view.wardId, mayMove);
  const wards = others.data?.wards ?? [];
  const nowhere = others.isSuccess && wards.length === 0;
  const to = wards.find(({ id }) => id === toWardId);
  const freeBeds = to?.freeBeds ?? [];
  const bed = freeBeds.includes(draft.bed) ? draft.bed : '';
  const missing = [toWardId === '' ? 'which ward' : null, bed === '' ? 'which bed there' : null].filter(
    (one) => one !== null,
  );
  return (
    <Card
      observing={observing}
      title="Transfer to another ward"
      action="Transfer"
      missing={mayMove ? (nowhere ? 'there is no other ward' : missing.join(', ') || null) : 'charge nurse'}
      onKeep={() => setLeaving(true)}
    >
      <div className={styles.row}>
        <Select
          label="Ward"
          value={draft.to}
          options={wards.map(({ id, name, freeBeds }) => ({ value: id, label: `${name}, ${freeBeds.length} free` }))}
          onChange={(next) => setDraft({ to: next, bed: '' })}
        />
        <Select
          label="Bed there"
          value={freeBeds.includes(draft.bed) ? draft.bed : ''}
          options={freeBeds.map((free) => ({ value: free, label: free }))}
          onChange={(value) => setDraft({ ...draft, bed: value })}
        />
      </div>
      {others.isError && <p role="alert">{wordsOf(others.error)}</p>}
      <p className="quiet">The fluid inside goes along, and its countdown.</p>
      {leaving && to && (
        <LeaveDialog
          observing={observing}
          title={`To ${to.name}, bed ${bed}`}
          action="Transfer"
          onClose={() => setLeaving(false)}
          onLeave={(fluid) => {
            const when = at();
            const fromWardId = patient.view.wardId;
            transfer([
              act('transferredOut', { toWardId, ...fluid }, when),
              act('transferredIn', { fromWardId, bed }, when),
            ]);
          }}
        />
      )}
    </Card>
  );
};
