import type { Criterion, WorkUp } from '@slackwater/domain';
import { clearingStanding } from '@slackwater/domain/peritonitis/antibiotics';
import { clearingWords } from '@slackwater/domain/peritonitis/clearing-words';
import { REFRACTORY_AFTER_DAYS } from '@slackwater/domain/peritonitis/course';
import { CELL_LIMITS } from '@slackwater/domain/peritonitis/criteria';
import { standingOf } from '@slackwater/domain/peritonitis/work-up-standing';
import { countWords, courseWords, cultureWords, standingWords } from '@slackwater/domain/peritonitis/work-up-words';
import { formatDate, formatMinutes } from '@slackwater/domain/words/numbers';
import { useMinute } from '../../live/now.ts';
import { appearanceWords } from '../bedside/model/words.ts';
import { Source } from '../bedside/shared/facts.tsx';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import { entryWords } from '../patient-record/words/entry-words.ts';
import { CONCLUSION_WORDS } from '../patient-record/words/work-up-words.ts';
import styles from './work-up.module.css';

const CRITERION_WORDS: Record<Criterion, string> = { met: 'Met', notMet: 'Not met', notKnown: 'Not known yet' };

/** How the work-up stands: the criteria as they fill up, and what has been done so far. */
export const Standing = ({ patient, workUp }: { patient: PatientContext; workUp: WorkUp }) => {
  const { ward, clock, policy, state } = patient;
  const standing = standingOf(workUp, state.comforts);
  const { criteria, findings, counts } = standing;
  const when = (at: number) => `${clock(at)}, ${formatDate(at, ward.zone)}`;
  const words = { clock, formulary: policy.formulary };
  const course = courseWords(workUp, counts, ward.zone);
  const clinical = [
    findings.cloudy ? 'cloudy effluent' : 'cloudy: not said',
    findings.pain === null ? 'pain not asked' : findings.pain ? 'pain' : 'no pain',
  ].join(', ');
  const rows = [
    { what: 'Pain or cloudy effluent', criterion: criteria.clinical, detail: clinical },
    {
      what: `White cells over ${CELL_LIMITS.whiteCellsAbovePerUl}/µL and over ${CELL_LIMITS.polymorphsAbovePercent} % polymorphs`,
      criterion: criteria.cells,
      detail: counts.length === 0 ? 'no count yet' : counts.map(countWords).join('; '),
    },
    { what: 'Positive culture', criterion: criteria.culture, detail: cultureWords(findings.culture) },
  ];
  const done = [
    ...workUp.samples.map((sample) => ({ at: sample.at, id: sample.id, ...entryWords('sampleTaken', sample, words) })),
    ...workUp.results.map((result) => ({
      at: result.at,
      id: result.id,
      ...entryWords('resultReported', result, words),
    })),
    ...workUp.antibiotics.map((one) => ({
      at: one.at,
      id: one.id,
      ...entryWords('antibioticStarted', { ...one, workUpId: workUp.id }, words),
    })),
    ...state.told
      .filter(({ finding }) => finding?.cause === workUp.drainId)
      .map((told) => ({ at: told.toldAt, id: told.entryId, ...entryWords('told', told, words) })),
  ].sort((a, b) => a.at - b.at);
  return (
    <section className={styles.standing} aria-label="How it stands">
      <h1>Suspected peritonitis since {when(workUp.openedAt)}</h1>
      <p className={styles.head} role="status">
        {standingWords(standing, ward.zone)}
      </p>
      {workUp.closed && (
        <p>
          <b>
            Concluded {when(workUp.closed.at)}: {CONCLUSION_WORDS[workUp.closed.conclusion]}.
          </b>{' '}
          {workUp.closed.reason}
        </p>
      )}
      <p>
        The drain of {when(workUp.drainStartedAt)} looked {appearanceWords(workUp.appearance)},{' '}
        {workUp.dwellMinutes === null
          ? 'after a dwell that is not known.'
          : `after a dwell of ${formatMinutes(workUp.dwellMinutes)}.`}{' '}
        Cloudy effluent is taken for peritonitis until excluded, whatever stands here.
      </p>
      <table className={styles.criteria}>
        <caption>Two of three make the diagnosis</caption>
        <tbody>
          {rows.map(({ what, criterion, detail }) => (
            <tr key={what} data-criterion={criterion}>
              <th scope="row">{what}</th>
              <td>
                <b>{CRITERION_WORDS[criterion]}</b>
              </td>
              <td>{detail}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <Source>ISPD 2022 (Perit Dial Int 2022;42:110–153), overview; under a dwell of 2 h: the 2016 text.</Source>
      {course.map((one) => (
        <p key={one}>
          <b>{one}</b>
        </p>
      ))}
      <p>{clearingWords(clearingStanding(workUp, state, useMinute(), ward))}</p>
      <Source>
        Not clear after {REFRACTORY_AFTER_DAYS} days: ISPD 2022, from memory. A statement about the effluent, no
        instruction.
      </Source>
      <h2>So far</h2>
      {done.length === 0 ? (
        <p>Nothing was sent, nobody was told.</p>
      ) : (
        <ol className={styles.done}>
          {done.map(({ id, at, what, detail }) => (
            <li key={id}>
              <span className="mono">{when(at)}</span> <b>{what}</b> {detail}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
};
