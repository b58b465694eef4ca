import { useQuery } from '@tanstack/react-query';
import { bedsQuery } from '../../api/queries.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { Card } from './card.tsx';
import type { Observing } from './observe-context.ts';

export const MoveBedCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [bed, setBed, forget] = useDraft(`move-bed:${patient.patientId}`, '');
  const beds = useQuery(bedsQuery(patient.view.wardId)).data?.beds ?? [];
  const free = beds.filter((one) => one.patientId === null).map((one) => one.bed);
  const wanted = bed.trim();
  const missing =
    wanted === ''
      ? 'which bed?'
      : beds.length > 0 && !beds.some((one) => one.bed === wanted)
        ? `the ward has no bed ${wanted}`
        : beds.length > 0 && !free.includes(wanted)
          ? `bed ${wanted} is taken`
          : null;
  return (
    <Card
      observing={observing}
      title="Another bed"
      last={patient.view.bed && `now bed ${patient.view.bed}`}
      action={wanted ? `Move to bed ${wanted}` : 'Move'}
      missing={patient.mayDo('admitAndMove') ? missing : 'charge nurse'}
      onKeep={async () => {
        if (await keep('movedBed', { bed: wanted })) forget();
      }}
    >
      <Field
        label="Bed"
        value={bed}
        onChange={setBed}
        maxLength={12}
        hint={free.length > 0 && `Free: ${free.slice(0, 12).join(', ')}`}
      />
    </Card>
  );
};
