import type { AlertMeasuresView, WardView } from '@slackwater/contract';
import type { ShareOf } from '@slackwater/domain';
import { ALERT_RANKS, ALERT_TITLES } from '@slackwater/domain/alert/alert';
import { ALERT_AIMS } from '@slackwater/domain/alert/measure';
import { formatMinutes } from '@slackwater/domain/words/numbers';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { api } from '../../../api/client.ts';
import { wordsOf } from '../../../api/problems.ts';
import { RANK_WORDS } from '../../../components/alert-flag/alert-flag.tsx';
import { Choice } from '../../../ui/choice.tsx';
import { countOf, hoursOf, percentOf, rateOf } from './measure-words.ts';
import styles from './too-often.module.css';

const TIMES = [
  { value: 12, label: '12 h' },
  { value: 24, label: '24 h' },
  { value: 7 * 24, label: '7 days' },
  { value: 31 * 24, label: '31 days' },
];
const LOOKED_AT_EVERY_MS = 60_000;
const NOISIEST_SHOWN = 5;

const useMeasures = (wardId: string, hours: number) =>
  useQuery({
    queryKey: ['ward', wardId, 'alert measures', hours],
    queryFn: ({ signal }) =>
      api.get<AlertMeasuresView>(`/api/wards/${encodeURIComponent(wardId)}/alerts/measures?hours=${hours}`, { signal }),
    refetchInterval: LOOKED_AT_EVERY_MS,
    placeholderData: keepPreviousData,
  });

/** The tool asks it of itself: each figure with its aim and the count it rests on; none where nothing was counted. */
export const TooOften = ({ ward }: { ward: WardView }) => {
  const [hours, setHours] = useState(24);
  const { data, error } = useMeasures(ward.id, hours);
  return (
    <section aria-label="Does it call too often?" className={styles.often}>
      <h2>Does it call too often?</h2>
      <Choice label="Of the last" hideLabel value={hours} onChange={setHours} options={TIMES} />
      {error && <p role="alert">{wordsOf(error)}</p>}
      {data && <Figures measures={data} />}
      {data && data.noisiest.length > 0 && <Noisiest measures={data} />}
    </section>
  );
};

const NONE = 'Nothing to count';

const Figures = ({ measures }: { measures: AlertMeasuresView }) => {
  const { raised, nurseMinutes, perNurseTenMinutes, byRank, minutesToAcknowledge, neverActedOn } = measures;
  return (
    <table className={styles.figures}>
      <thead>
        <tr>
          <th scope="col">Figure</th>
          <th scope="col">Is</th>
          <th scope="col">Aim</th>
          <th scope="col">Rests on</th>
        </tr>
      </thead>
      <tbody>
        <Figure
          what="Alerts per nurse and 10 min"
          is={perNurseTenMinutes === null ? NONE : rateOf(perNurseTenMinutes)}
          aim={`at most ${ALERT_AIMS.perNurseTenMinutes}`}
          on={
            perNurseTenMinutes === null
              ? `${countOf(raised, 'alert')}; no nurse had a patient`
              : `${countOf(raised, 'alert')}, ${hoursOf(nurseMinutes)} of nurses with patients`
          }
        />
        {ALERT_RANKS.map((rank) => (
          <Figure
            key={rank}
            what={RANK_WORDS[rank]}
            is={percentOf(byRank[rank]) ?? NONE}
            aim={`about ${ALERT_AIMS.percent[rank]} %`}
            on={restsOn(byRank[rank])}
          />
        ))}
        <Figure
          what="Until somebody had it"
          is={
            minutesToAcknowledge === null
              ? NONE
              : `half in ${formatMinutes(Math.round(minutesToAcknowledge.median))}, nine of ten in ${formatMinutes(Math.round(minutesToAcknowledge.p90))}`
          }
          aim="none set"
          on={minutesToAcknowledge === null ? 'nobody had one' : countOf(minutesToAcknowledge.count, 'alert')}
        />
        <Figure
          what="Ended, never acted on"
          is={percentOf(neverActedOn) ?? NONE}
          aim="few: each asks whether its rule is right"
          on={neverActedOn === null ? 'none has ended' : restsOn(neverActedOn)}
        />
      </tbody>
      <caption>
        Aims: EEMUA 191, as widely cited, in steady work. Never acted on: nobody had, snoozed or cleared it; what was
        done at the bed may have ended it all the same.
      </caption>
    </table>
  );
};

const restsOn = (share: ShareOf | null): string =>
  share === null ? 'none was raised' : `${share.count} of ${share.of}`;

const Figure = ({ what, is, aim, on }: { what: string; is: string; aim: string; on: string }) => (
  <tr>
    <th scope="row">{what}</th>
    <td>
      <b>{is}</b>
    </td>
    <td>{aim}</td>
    <td>{on}</td>
  </tr>
);

const Noisiest = ({ measures: { noisiest } }: { measures: AlertMeasuresView }) => (
  <>
    <h3>The noisiest rules</h3>
    <ol className={styles.noisiest}>
      {noisiest.slice(0, NOISIEST_SHOWN).map(({ kind, raised, neverActedOn }) => (
        <li key={kind}>
          <b>{ALERT_TITLES[kind]}</b> {restsOn(raised)}
          {neverActedOn !== null && neverActedOn.count > 0 && `, ${restsOn(neverActedOn)} never acted on`}
        </li>
      ))}
    </ol>
  </>
);
