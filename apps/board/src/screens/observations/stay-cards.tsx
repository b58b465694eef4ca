import type { BedsView, OtherWardsView } from '@slackwater/contract';
import { useQuery } from '@tanstack/react-query';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { useDraft } from '../../drafts/use-draft.ts';
import { Field } from '../../ui/field.tsx';
import { act } from '../bedside/model/batch.ts';
import { InstantField } from '../bedside/shared/instant-field.tsx';
import { EMPTY_INSTANT, readInstant } from '../bedside/shared/typed-instant.ts';
import { Card } from './card.tsx';
import styles from './observations.module.css';
import type { Observing } from './observe-context.ts';

/** Off the ward with what is inside, and back: the countdown goes on either way. */
export const OffWardCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const { ward, state, clock, patientId } = patient;
  const [draft, setDraft, forget] = useDraft(`off-ward:${patientId}`, { where: '', back: EMPTY_INSTANT });
  const away = state.stay?.offWard ?? null;
  if (away)
    return (
      <Card
        observing={observing}
        title="Off the ward"
        last={`${away.where}, since ${clock(away.since)}`}
        action="Back on the ward"
        missing={null}
        onKeep={() => void keep('returned', {})}
      >
        <p>
          {away.backAbout === null
            ? 'No time was given for the return.'
            : `Expected back about ${clock(away.backAbout)}.`}
        </p>
      </Card>
    );
  const back = readInstant(draft.back, ward.zone);
  const backMissing = back.problem && (back.two ? 'which of the two times?' : 'the time is not possible');
  return (
    <Card
      observing={observing}
      title="Leaves the ward"
      action="Off the ward"
      missing={draft.where.trim() === '' ? 'where to?' : backMissing}
      onKeep={async () => {
        if (await keep('leftWard', { where: draft.where.trim(), backAbout: back.at })) forget();
      }}
    >
      <Field label="Where to" value={draft.where} onChange={(where) => setDraft({ ...draft, where })} maxLength={200} />
      <InstantField
        label="Back about, if known"
        typed={draft.back}
        onTyped={(typed) => setDraft({ ...draft, back: typed })}
        zone={ward.zone}
      />
    </Card>
  );
};

const useFreeBeds = (wardId: string) =>
  useQuery({
    queryKey: ['ward', wardId, 'beds'],
    queryFn: ({ signal }) => api.get<BedsView>(`/api/wards/${encodeURIComponent(wardId)}/beds`, { signal }),
  });

export const MoveBedCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [bed, setBed, forget] = useDraft(`move-bed:${patient.patientId}`, '');
  const beds = useFreeBeds(patient.view.wardId).data?.beds ?? [];
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

const useOtherWards = (wardId: string, enabled: boolean) =>
  useQuery({
    queryKey: ['ward', wardId, 'others'],
    queryFn: ({ signal }) => api.get<OtherWardsView>(`/api/wards/${encodeURIComponent(wardId)}/others`, { signal }),
    staleTime: 0,
    enabled,
  });

type SelectProps = {
  label: string;
  value: string;
  options: readonly { value: string; label: string }[];
  onChange: (value: string) => void;
};

const Select = ({ label, value, options, onChange }: SelectProps) => (
  <label className={styles.select}>
    {label}
    <select value={value} onChange={(event) => onChange(event.target.value)}>
      <option value="">choose</option>
      {options.map((option) => (
        <option key={option.value} value={option.value}>
          {option.label}
        </option>
      ))}
    </select>
  </label>
);

/** A transfer is written as one, leaving here and arriving there; the fluid inside goes along. */
export const TransferCard = ({ observing }: { observing: Observing }) => {
  const { patient, transfer, at } = observing;
  const [draft, setDraft] = useDraft(`transfer:${patient.patientId}`, { to: '', bed: '' });
  const toWardId = draft.to.trim();
  const mayMove = patient.mayDo('admitAndMove');
  const others = useOtherWards(patient.view.wardId, mayMove);
  const wards = others.data?.wards ?? [];
  const freeBeds = wards.find(({ id }) => id === toWardId)?.freeBeds ?? [];
  const bed = freeBeds.includes(draft.bed) ? draft.bed : '';
  const missing = [toWardId === '' ? 'which ward' : null, bed === '' ? 'which bed there' : null].filter(
    (one) => one !== null,
  );
  return (
    <Card
      observing={observing}
      title="Transfer to another ward"
      action="Transfer"
      missing={mayMove ? missing.join(', ') || null : 'charge nurse'}
      onKeep={() => {
        const when = at();
        const fromWardId = patient.view.wardId;
        transfer([act('transferredOut', { toWardId }, when), act('transferredIn', { fromWardId, bed }, when)]);
      }}
    >
      <div className={styles.row}>
        <Select
          label="Ward"
          value={draft.to}
          options={wards.map(({ id, name, freeBeds }) => ({ value: id, label: `${name}, ${freeBeds.length} free` }))}
          onChange={(to) => setDraft({ to, bed: '' })}
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
    </Card>
  );
};

export const DischargeCard = ({ observing }: { observing: Observing }) => {
  const { patient, keep } = observing;
  const [draft, setDraft, forget] = useDraft(`discharge:${patient.patientId}`, { to: '', handover: '' });
  return (
    <Card
      observing={observing}
      title="Discharge"
      action="Discharge"
      missing={patient.mayDo('admitAndMove') ? (draft.to.trim() === '' ? 'where to?' : null) : 'charge nurse'}
      onKeep={async () => {
        if (await keep('discharged', { to: draft.to.trim(), handover: draft.handover.trim() || null })) forget();
      }}
    >
      <Field
        label="Where to"
        value={draft.to}
        onChange={(to) => setDraft({ ...draft, to })}
        maxLength={200}
        hint="home, another hospital, …"
      />
      <Field
        label="Handed over"
        value={draft.handover}
        onChange={(handover) => setDraft({ ...draft, handover })}
        maxLength={2000}
        hint="What is inside, when it is due."
      />
    </Card>
  );
};
