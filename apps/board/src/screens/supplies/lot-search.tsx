import type { LotView, WardView } from '@slackwater/contract';
import { solutionOf } from '@slackwater/domain/solution/formulary';
import { formatClock, formatDate, formatIsoDate, formatMl } from '@slackwater/domain/words/numbers';
import { useMutation } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'react-router';
import { api } from '../../api/client.ts';
import { wordsOf } from '../../api/problems.ts';
import { paths } from '../../paths.ts';
import { Button } from '../../ui/button.tsx';
import { Field } from '../../ui/field.tsx';
import { Table } from '../../ui/table.tsx';
import styles from './supplies.module.css';

/** Which patients had a lot; asked only when somebody asks, since it names patients and is noted. */
export const LotSearch = ({ ward }: { ward: WardView }) => {
  const [lot, setLot] = useState('');
  const search = useMutation({
    mutationFn: (asked: string) =>
      api.get<LotView>(`/api/wards/${encodeURIComponent(ward.id)}/lots?lot=${encodeURIComponent(asked)}`),
  });
  const missing = lot.trim() === '' ? 'the lot is missing' : null;
  return (
    <section aria-label="Who had a lot">
      <h2>Who had a lot</h2>
      <form
        className={styles.row}
        onSubmit={(event) => {
          event.preventDefault();
          if (!missing) search.mutate(lot.trim());
        }}
      >
        <Field
          label="Lot, as it is printed"
          value={lot}
          onChange={setLot}
          autoComplete="off"
          maxLength={60}
          problem={search.isError ? wordsOf(search.error) : null}
        />
        <Button tone="main" type="submit" disabledBecause={search.isPending ? 'looking' : missing}>
          Find the patients
        </Button>
      </form>
      {search.data && <Found ward={ward} lot={search.variables} found={search.data} />}
    </section>
  );
};

const Found = ({ ward, lot, found }: { ward: WardView; lot: string; found: LotView }) => {
  const { uses, more, unreadFills, unreadDays } = found;
  const patients = new Set(uses.map(({ patient }) => patient.id)).size;
  const words = (id: string) => solutionOf(ward.policy.formulary, id)?.strength ?? id;
  return (
    <div role="status">
      <p className={styles.lead}>
        <b>
          {uses.length === 0
            ? `No bag of lot ${lot} is in the record.`
            : `Lot ${lot}: ${patients} ${patients === 1 ? 'patient' : 'patients'}, ${uses.length} ${uses.length === 1 ? 'bag' : 'bags'}.`}
        </b>{' '}
        {more && 'There are more, older ones. '}
        {unreadFills === 0
          ? `Every fill that was recorded at a bed in the last ${unreadDays} days has its lot.`
          : `${unreadFills} ${unreadFills === 1 ? 'fill' : 'fills'} recorded at a bed in the last ${unreadDays} days ${unreadFills === 1 ? 'has' : 'have'} no lot: any of them may be of this one.`}{' '}
        A flow sheet that was brought in, and what was inside at an admission, name no lot: look at paper for those.
      </p>
      {uses.length > 0 && (
        <Table
          rows={uses}
          keyOf={({ patient, at }) => `${patient.id} ${at}`}
          columns={[
            { head: 'Patient', of: ({ patient }) => <Who patient={patient} /> },
            { head: 'When', of: ({ at }) => `${formatDate(at, ward.zone)} ${formatClock(at, ward.zone)}` },
            {
              head: 'Bag',
              of: ({ solutionId, labelledMl, filled, expiresOn }) => (
                <>
                  {words(solutionId)}, {formatMl(labelledMl)}
                  <br />
                  {filled ? 'filled' : 'checked, no fill recorded'}
                  {expiresOn && `, expiry ${formatIsoDate(expiresOn)}`}
                </>
              ),
            },
            { head: 'Used on', of: ({ wardId }) => (wardId === ward.id ? ward.name : wardId) },
            {
              head: 'Now',
              of: ({ nowWardId, nowBed }) =>
                nowWardId === null ? 'on no ward' : nowWardId === ward.id ? `bed ${nowBed}` : nowWardId,
            },
          ]}
        />
      )}
    </div>
  );
};

const Who = ({ patient }: { patient: LotView['uses'][number]['patient'] }) => (
  <>
    <Link className={styles.link} to={paths.record(patient.id)}>
      {patient.family}, {patient.given}
    </Link>
    <span className="nb">
      {formatIsoDate(patient.dateOfBirth)}, {patient.hospitalNumber}
    </span>
  </>
);
