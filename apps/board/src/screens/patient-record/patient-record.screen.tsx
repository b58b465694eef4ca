import type { EntryView } from '@slackwater/contract';
import { useSuspenseInfiniteQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { useSearchParams } from 'react-router';
import { queryClient } from '../../api/query-client.ts';
import { Button } from '../../ui/button.tsx';
import { cx } from '../../ui/class-names.ts';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { Tick } from '../bedside/shared/tick.tsx';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { AmendPanel } from './amend-panel.tsx';
import { MissedExchange } from './missed/missed-exchange.tsx';
import styles from './patient-record.module.css';
import { RecordList } from './record-list.tsx';
import { recordQuery } from './record-query.ts';

export const loader = async (args: { params: Readonly<Record<string, string | undefined>> }) => {
  await Promise.all([loadPatient(args), queryClient.ensureInfiniteQueryData(recordQuery(args.params.id ?? ''))]);
  return null;
};

/** The patient's record: nothing is changed or removed; a correction stands beside what it corrects. */
export const Component = () => {
  const patient = usePatient();
  const recorder = useRecord(patient.patientId, patient.view.wardId);
  const pages = useSuspenseInfiniteQuery(recordQuery(patient.patientId));
  const [search, setSearch] = useSearchParams();
  const [chosen, setChosen] = useState<string | null>(null);
  const [withAlerts, setWithAlerts] = useState(false);
  const entries = pages.data.pages.flatMap((page) => page.entries);
  const entry = entries.find((one) => one.id === chosen);
  const missed = search.has('missed');
  const me = patient.session.account.id;

  const whyNot = (one: EntryView): string | null => {
    if (patient.mayDo('correctAny')) return null;
    if (!patient.mayDo('correctOwn')) return 'not in your role';
    return one.author === me ? null : 'charge nurse or physician';
  };

  return (
    <PatientPage patient={patient} recorder={recorder}>
      <div className={styles.bar}>
        <h2>Record</h2>
        <p>Nothing is changed or removed: a correction stands beside what it corrects.</p>
        <Tick checked={withAlerts} onChange={setWithAlerts}>
          Alerts too
        </Tick>
        {!missed && patient.mayDo('recordExchange') && (
          <Button onPress={() => setSearch({ missed: '' })}>Enter a missed exchange</Button>
        )}
      </div>
      <div className={cx(styles.record, !entry && !missed && styles.alone)}>
        <main>
          <RecordList
            patient={patient}
            entries={entries}
            withAlerts={withAlerts}
            chosen={chosen}
            whyNot={whyNot}
            onChoose={(one) => setChosen(one.id)}
          />
          {pages.hasNextPage && (
            <Button
              onPress={() => void pages.fetchNextPage()}
              disabledBecause={pages.isFetchingNextPage ? 'being fetched' : null}
            >
              Earlier entries
            </Button>
          )}
        </main>
        {missed ? (
          <MissedExchange patient={patient} recorder={recorder} entries={entries} onClose={() => setSearch({})} />
        ) : (
          entry && (
            <AmendPanel
              key={entry.id}
              patient={patient}
              recorder={recorder}
              entry={entry}
              entries={entries}
              onClose={() => setChosen(null)}
            />
          )
        )}
      </div>
    </PatientPage>
  );
};
