import type { RoundsView } from '@slackwater/contract';
import type { Dwell, EmptyReason } from '@slackwater/domain';
import { type InsideStep, insideSteps, sinceLastEmpty } from '@slackwater/domain/cavity/steps';
import { formatDate, formatMl, formatWhole } from '@slackwater/domain/words/numbers';
import { queryOptions, useSuspenseQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../api/client.ts';
import { patientKey } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { Button } from '../../ui/button.tsx';
import { Table } from '../../ui/table.tsx';
import { insideWords } from '../bedside/model/words.ts';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import styles from './inside.module.css';

/** So far back the dwells are read: a correction is learned over weeks, not over months. */
const DAYS = 30;
const A_PAGE = 12;

const dwellsQuery = (patientId: string) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'inside', DAYS],
    queryFn: ({ signal }) =>
      api.get<RoundsView>(`/api/patients/${encodeURIComponent(patientId)}/rounds?days=${DAYS}`, { signal }),
  });

export const loader = async (args: { params: Readonly<Record<string, string | undefined>> }) => {
  await Promise.all([loadPatient(args), queryClient.ensureQueryData(dwellsQuery(args.params.id ?? ''))]);
  return null;
};

const BY: Record<EmptyReason | 'admission', string> = {
  secondDrainUnder100Ml: 'a second drain under 100 mL',
  imaging: 'imaging',
  physician: 'the physician',
  admission: 'what was said at admission',
};

/** How both figures came about, dwell by dwell, since a person last said that the cavity is empty. */
export const Component = () => {
  const patient = usePatient();
  const { patientId, state, policy, view, ward, clock } = patient;
  const recorder = useRecord(patientId, view.wardId);
  const { dwells } = useSuspenseQuery(dwellsQuery(patientId)).data;
  const [shown, setShown] = useState(A_PAGE);
  const steps = sinceLastEmpty(insideSteps(withNewest(dwells, [...state.lastDwells, state.openDwell]), policy));
  const listed = steps.toReversed().slice(0, shown);
  const { sinceEmpty, correctionFrom, ufCorrectionMl } = state.inside;
  const when = (at: number) => `${formatDate(at, ward.zone)} ${clock(at)}`;
  return (
    <PatientPage patient={patient} recorder={recorder}>
      <main className={styles.page}>
        <h2>Probably inside: {insideWords(state.inside)}</h2>
        <p className={styles.words}>
          An estimate, not a measurement. By the book is a running sum: before + fill + expected − drained, never below
          nothing; only a person who confirms empty sets it anew. By the flow also trusts a flow that ran to a stop; a
          blocked catheter stops too. The ordinary residual is {formatMl(policy.settings.residualMl)}, a setting of the
          ward.
        </p>
        <p className={styles.words}>
          {sinceEmpty === null
            ? 'Not known what is inside: nobody has confirmed empty since a volume was missing.'
            : `Reckoned since ${when(sinceEmpty.at)}, by ${BY[sinceEmpty.by]}.`}{' '}
          {correctionFrom === null
            ? 'No correction of the patient’s own is learned yet.'
            : `The patient’s own correction is ${signed(ufCorrectionMl)} a dwell: ${correctionFrom.dwells} dwells from ${when(correctionFrom.since)} to ${when(correctionFrom.until)} brought ${signed(correctionFrom.surplusMl)} against the ward’s table.`}
        </p>
        {steps.length === 0 ? (
          <p>No dwell has been drained yet.</p>
        ) : (
          <Table
            rows={listed}
            keyOf={({ dwellId }) => dwellId}
            columns={[
              { head: 'Drain begun', of: ({ at }) => <span className="nb">{when(at)}</span> },
              { head: 'Filled', of: ({ filledMl }) => volume(filledMl), className: styles.number },
              { head: 'Expected, spread', of: expectedOf },
              { head: 'Drained', of: drainedOf, className: styles.number },
              { head: 'By the book after', of: ({ after }) => volume(after.bookMl), className: styles.number },
              { head: 'By the flow after', of: ({ after }) => volume(after.flowMl), className: styles.number },
              {
                head: 'Set anew by',
                of: ({ reset }) =>
                  reset === null ? null : (
                    <>
                      {BY[reset.by]}, <span className="nb">{when(reset.at)}</span>
                    </>
                  ),
              },
            ]}
          />
        )}
        {listed.length < steps.length && (
          <Button onPress={() => setShown(shown + A_PAGE)}>Show earlier dwells, {steps.length - listed.length}</Button>
        )}
      </main>
    </PatientPage>
  );
};

const expectedOf = ({ ufMl, ufSdMl, ufCorrectionMl }: InsideStep) => {
  if (ufMl === null || ufSdMl === null) return 'not known';
  return (
    <>
      <span className="nb">{signed(ufMl)}</span>, {formatWhole(ufSdMl)}
      {ufCorrectionMl !== 0 && (
        <>
          ; <span className="nb">own {signed(ufCorrectionMl)}</span> in it
        </>
      )}
    </>
  );
};

const drainedOf = ({ drainedMl, stopped }: InsideStep) => (
  <>
    {volume(drainedMl)}
    {stopped === false ? ', still ran' : stopped === null ? ', draining' : ''}
  </>
);

const volume = (ml: number | null) => <span className="nb">{ml === null ? 'not known' : formatMl(ml)}</span>;

/** Expected ultrafiltration has a direction; a word says which. */
const signed = (ml: number): string => `${formatMl(ml)} ${ml < 0 ? 'taken up' : 'drawn'}`;

/** The dwells as read, with those that the bedside holds as they now are: a drain may have ended since. */
function withNewest(dwells: readonly Dwell[], held: readonly (Dwell | null)[]): readonly Dwell[] {
  const byId = new Map(dwells.map((dwell) => [dwell.id, dwell]));
  for (const dwell of held) if (dwell !== null) byId.set(dwell.id, dwell);
  const begun = (dwell: Dwell) => dwell.drains[0]?.startedAt ?? 0;
  return [...byId.values()].filter(({ drains }) => drains.length > 0).sort((a, b) => begun(a) - begun(b));
}
