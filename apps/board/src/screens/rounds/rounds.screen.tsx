import type { RoundsView } from '@slackwater/contract';
import { runningBalance } from '@slackwater/domain/balance/running';
import { removedWords } from '@slackwater/domain/balance/words';
import { formatDate, formatIsoDate } from '@slackwater/domain/words/numbers';
import { queryOptions, useSuspenseQuery } from '@tanstack/react-query';
import { lazy } from 'react';
import { useSearchParams } from 'react-router';
import { api } from '../../api/client.ts';
import { patientKey } from '../../api/queries.ts';
import { queryClient } from '../../api/query-client.ts';
import { useMinute } from '../../live/now.ts';
import { Choice } from '../../ui/choice.tsx';
import { PatientPage } from '../bedside/shared/patient-page.tsx';
import { loadPatient } from '../bedside/shared/queries.ts';
import { usePatient } from '../bedside/shared/use-patient.ts';
import { useRecord } from '../bedside/shared/use-record.ts';
import { BesideTrends } from './beside-trends.tsx';
import { day } from './day-words.ts';
import { Figure } from './figure.tsx';
import styles from './rounds.module.css';
import { dayPoints, dwellPoints, meanRemoved } from './series.ts';
import { besideTarget } from './weight-words.ts';

// The chart library is as large as the rest of the app: it comes when a chart does.
const Chart = lazy(() => import('./chart.tsx'));

const SPANS = [7, 30, 90] as const;
type Span = (typeof SPANS)[number];

const roundsQuery = (patientId: string, days: number) =>
  queryOptions({
    queryKey: [...patientKey(patientId), 'rounds', days],
    queryFn: ({ signal }) =>
      api.get<RoundsView>(`/api/patients/${encodeURIComponent(patientId)}/rounds?days=${days}`, { signal }),
  });

const spanOf = (search: URLSearchParams): Span => SPANS.find((span) => String(span) === search.get('days')) ?? 30;

export const loader = async (args: { params: Readonly<Record<string, string | undefined>>; request: Request }) => {
  const days = spanOf(new URL(args.request.url).searchParams);
  await Promise.all([loadPatient(args), queryClient.ensureQueryData(roundsQuery(args.params.id ?? '', days))]);
  return null;
};

const figure = (ml: number | null): string => (ml === null ? 'missing' : removedWords(ml));

const wardDays = (count: number): string => (count === 1 ? 'complete ward day' : `${count} complete ward days`);

/** Trends: net ultrafiltration per ward day and per dwell, running balance, weight; each a sentence, a chart, a table. */
export const Component = () => {
  const patient = usePatient();
  const { state, policy, ward, clock, patientId } = patient;
  const recorder = useRecord(patientId, patient.view.wardId);
  const [search, setSearch] = useSearchParams();
  const days = spanOf(search);
  const rounds = useSuspenseQuery(roundsQuery(patientId, days)).data;

  const points = dayPoints(rounds.days, rounds.weights, useMinute());
  const dwells = dwellPoints(rounds.dwells, policy.formulary).slice(-40);
  const sums = runningBalance(rounds.days.map(({ balance }) => balance));
  const running = rounds.days.map(({ date }, index) => ({ date, ...sums[index]! }));
  const incomplete = points.filter((point) => point.missing !== null && point.missing !== 'no exchange').length;
  const over = points.filter((point) => !point.underWay);
  const today = points.find((point) => point.underWay);
  const soFar = today?.removedMl == null ? null : `${removedWords(today.removedMl)} so far in the day under way.`;
  const week = meanRemoved(points, 7);
  const before = meanRemoved(over.slice(0, -7), 7);
  const lastRunning = running.findLast((point) => point.runningMl !== null);
  const weighed = points.filter((point) => point.weightKg !== null);
  const lastWeight = weighed.at(-1);
  const limits = state.prescription?.limits ?? null;
  const withOther = points.filter((point) => point.otherMl !== null).length;
  const retained = dwells.filter((dwell) => (dwell.removedMl ?? 0) < 0).length;

  return (
    <PatientPage patient={patient} recorder={recorder}>
      <div className={styles.bar}>
        <Choice
          label="How far back"
          hideLabel
          value={days}
          onChange={(next) => setSearch({ days: String(next) })}
          options={SPANS.map((span) => ({ value: span, label: `${span} ward days` }))}
        />
      </div>
      <main className={styles.page}>
        <div>
          <Figure
            sentence={
              week ? (
                <>
                  <b>
                    {removedWords(week.meanMl)} a day over the last {wardDays(week.of)}
                  </b>
                  {before && `; ${removedWords(before.meanMl)} over the ${before.of} before them`}.
                  {incomplete > 0 &&
                    ` ${incomplete} ${incomplete === 1 ? 'day is' : 'days are'} incomplete and not drawn.`}
                  {soFar && ` Hollow: ${soFar}`}
                </>
              ) : (
                <>
                  <b>No complete ward day yet.</b>
                  {soFar && ` Hollow: ${soFar}`}
                </>
              )
            }
            what="Net ultrafiltration per ward day"
            empty={points.some((point) => point.removedMl !== null) ? null : 'Nothing complete to draw in these days.'}
            table={{
              head: ['Ward day', 'Net', 'Exchanges', 'Missing'],
              rows: points.map((point) => [
                formatIsoDate(point.date),
                figure(point.removedMl),
                String(point.exchanges),
                point.missing ?? (point.underWay ? 'not over' : ''),
              ]),
            }}
          >
            <Chart
              as="bars"
              axis="balance"
              points={points.map((point) => ({
                label: day(point.date),
                value: point.removedMl,
                missing: point.missing !== null,
                hollow: point.underWay,
                expected: null,
              }))}
            />
          </Figure>
          <Figure
            sentence={
              dwells.length > 0 ? (
                <>
                  <b>
                    {retained} of the last {dwells.length} dwells retained fluid
                  </b>
                  . Hollow bars are drain minus fill: the drain was not judged complete.
                </>
              ) : (
                <b>No dwell has been drained in these days.</b>
              )
            }
            what="Net ultrafiltration per dwell, the post is what was expected"
            empty={dwells.length > 0 ? null : 'Nothing to draw.'}
            table={{
              head: ['Drained', 'Strength', 'Drain minus fill', 'Expected', 'Complete'],
              rows: dwells.map((dwell) => [
                `${formatDate(dwell.at, ward.zone)} ${clock(dwell.at)}`,
                dwell.strength,
                figure(dwell.removedMl),
                dwell.expectedMl === null ? 'not known' : removedWords(dwell.expectedMl),
                dwell.complete ? 'yes' : 'no',
              ]),
            }}
          >
            <Chart
              as="bars"
              axis="balance"
              points={dwells.map((dwell) => ({
                label: `${formatDate(dwell.at, ward.zone).slice(0, 6)} ${clock(dwell.at)}`,
                value: dwell.removedMl,
                missing: dwell.removedMl === null,
                hollow: !dwell.complete,
                expected: dwell.expectedMl,
              }))}
            />
          </Figure>
          <Figure
            sentence={
              lastRunning?.runningMl != null ? (
                <>
                  <b>
                    {removedWords(lastRunning.runningMl)} in all since {points[0] && day(points[0].date)}
                  </b>
                  {lastRunning.sinceGap && ', less the days that are missing; hollow from there on'}. Other fluids, in
                  or out, are recorded on {withOther} of {points.length} days: what nobody wrote down is not in it.
                </>
              ) : (
                <b>The running balance is not known.</b>
              )
            }
            what="Running balance, whole body, of what was recorded"
            empty={running.some((point) => point.runningMl !== null) ? null : 'Nothing to draw.'}
            table={{
              head: ['Ward day', 'Running'],
              rows: running.map((point) => [formatIsoDate(point.date), figure(point.runningMl)]),
            }}
          >
            <Chart
              as="line"
              axis="balance"
              points={running.map((point) => ({
                label: day(point.date),
                value: point.runningMl,
                missing: point.runningMl === null,
                hollow: point.sinceGap,
                expected: null,
              }))}
            />
          </Figure>
          <Figure
            sentence={
              lastWeight?.weightKg != null ? (
                <>
                  <b>
                    {lastWeight.weightKg} kg, {lastWeight.weightCavity}, on {day(lastWeight.date)}
                  </b>
                  {limits && besideTarget({ ...lastWeight, weightKg: lastWeight.weightKg }, limits)}. Not weighed on{' '}
                  {points.length - weighed.length} of {points.length} days
                  {weighed.some(({ weightCavity }) => weightCavity === 'empty') && '; hollow: cavity empty'}.
                </>
              ) : (
                <b>No weight in these days.</b>
              )
            }
            what="Weight"
            empty={weighed.length > 0 ? null : 'Nobody was weighed: nothing is drawn.'}
            table={{
              head: ['Ward day', 'Weight', 'Cavity'],
              rows: points.map((point) => [
                formatIsoDate(point.date),
                point.weightKg === null ? 'not weighed' : `${point.weightKg} kg`,
                point.weightCavity ?? '',
              ]),
            }}
          >
            <Chart
              as="line"
              axis="kg"
              target={
                limits === null || limits.weightTargetKg === null
                  ? null
                  : {
                      value: limits.weightTargetKg,
                      words: `target ${limits.weightTargetKg} kg, cavity ${limits.weightTargetCavity}`,
                    }
              }
              points={points.map((point) => ({
                label: day(point.date),
                value: point.weightKg,
                missing: point.weightKg === null,
                hollow: point.weightCavity === 'empty',
                expected: null,
              }))}
            />
          </Figure>
        </div>
        <BesideTrends patient={patient} points={points} bloodPressures={rounds.bloodPressures} />
      </main>
    </PatientPage>
  );
};
