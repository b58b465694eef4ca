import type { PrescriptionsView } from '@slackwater/contract';
import { itemWords } from '@slackwater/domain/prescription/changes';
import { formatDate } from '@slackwater/domain/words/numbers';
import { queryOptions, useSuspenseQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { patientKey } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { Button } from '../../ui/button.tsx';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { DayTide } from './day-tide.tsx';
import { Hold } from './hold.tsx';
import { Limits } from './limits.tsx';
import { Orders } from './orders.tsx';
import styles from './prescription.module.css';
import { RevisionEditor } from './revision-editor.tsx';
import { RevisionItem } from './revision-item.tsx';

const prescriptionsQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'prescriptions'],
    queryFn: ({ signal }) =>
      api.get<PrescriptionsView>(`/api/patients/${encodeURIComponent(patientId)}/prescriptions`, { signal }),
  });

export const loader = async (args: { params: Readonly<Record<string, string | undefined>> }) => {
  await Promise.all([loadPatient(args), queryClient.ensureQueryData(prescriptionsQuery(args.params.id ?? ''))]);
  return null;
};

/** What is prescribed: the revision in force, a new one beside it, one-off orders, earlier revisions. */
export const Component = () => {
  const patient = usePatient();
  const { state, policy, ward, clock, mayDo } = patient;
  const recorder = useRecord(patient.patientId, patient.view.wardId);
  const { revisions, orders, names } = useSuspenseQuery(prescriptionsQuery(patient.patientId)).data;
  const [editing, setEditing] = useState(false);
  const inForce = state.prescription;
  const earlier = revisions.filter((revision) => revision.id !== inForce?.id);
  const by = (accountId: string | null) => (accountId === null ? '' : (names[accountId] ?? ''));
  return (
    <PatientPage patient={patient} recorder={recorder}>
      <main className={styles.page}>
        {editing ? (
          <RevisionEditor patient={patient} recorder={recorder} inForce={inForce} onClose={() => setEditing(false)} />
        ) : (
          <section aria-labelledby="in-force" className={styles.inForce}>
            <h2 id="in-force" className={styles.title}>
              {inForce ? `Revision ${inForce.number}` : 'Nothing is prescribed'}
            </h2>
            {inForce && (
              <p className="quiet">
                {state.discontinuedAt === null ? 'in force' : 'discontinued'} since{' '}
                {formatDate(inForce.prescribedAt, ward.zone)} {clock(inForce.prescribedAt)}, {by(inForce.prescribedBy)}
                {inForce.note && `: ${inForce.note}`}
                {inForce.reviewBy !== null && (
                  <b>
                    . Review by {formatDate(inForce.reviewBy, ward.zone)} {clock(inForce.reviewBy)}
                  </b>
                )}
              </p>
            )}
            {inForce && (
              <>
                <table className={styles.table}>
                  <thead>
                    <tr>
                      <th scope="col">Exchange</th>
                      <th scope="col">Strength, fill, dwell</th>
                    </tr>
                  </thead>
                  <tbody>
                    {inForce.items.map((item, index) => (
                      <tr key={item.id}>
                        <th scope="row">{index + 1}</th>
                        <td>
                          <RevisionItem item={item} formulary={policy.formulary} />
                        </td>
                      </tr>
                    ))}
                  </tbody>
                </table>
                <Limits limits={inForce.limits} />
                <DayTide
                  name={String(inForce.number)}
                  items={inForce.items}
                  formulary={policy.formulary}
                  changed={new Set()}
                />
              </>
            )}
            <div className={styles.begin}>
              <Button
                tone="main"
                onPress={() => setEditing(true)}
                disabledBecause={mayDo('prescribe') ? null : 'a physician prescribes'}
              >
                {inForce ? 'New revision' : 'Prescribe'}
              </Button>
            </div>
          </section>
        )}
        <aside className={styles.side}>
          <Orders patient={patient} recorder={recorder} orders={orders} names={names} />
          <Hold patient={patient} recorder={recorder} />
          <section aria-labelledby="earlier">
            <h2 id="earlier">Earlier</h2>
            {earlier.length === 0 && <p className="quiet">There is no earlier revision.</p>}
            {earlier.map((revision) => (
              <div key={revision.id} className={styles.order}>
                <p>
                  <b>{revision.number}</b> {formatDate(revision.prescribedAt, ward.zone)} {clock(revision.prescribedAt)}
                  , {by(revision.prescribedBy)}
                </p>
                {revision.items.map((item) => (
                  <p key={item.id} className="quiet">
                    {itemWords(item, policy.formulary)}
                  </p>
                ))}
              </div>
            ))}
          </section>
        </aside>
      </main>
    </PatientPage>
  );
};
