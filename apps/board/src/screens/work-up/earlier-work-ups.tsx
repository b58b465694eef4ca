import type { WorkUp } from '@slackwater/domain';
import { countsOf } from '@slackwater/domain/peritonitis/work-up-standing';
import { countWords } from '@slackwater/domain/peritonitis/work-up-words';
import { formatDate } from '@slackwater/domain/words/numbers';
import { appearanceWords } from '../bedside/model/words.ts';
import type { PatientContext } from '../bedside/shared/use-patient.ts';
import { CONCLUSION_WORDS } from '../patient-record/words/work-up-words.ts';
import styles from './work-up.module.css';

type EarlierProps = { patient: PatientContext; workUps: readonly WorkUp[] };

/** Work-ups that were concluded before, newest first. */
export const EarlierWorkUps = ({ patient: { clock, ward }, workUps }: EarlierProps) => {
  if (workUps.length === 0) return null;
  const when = (at: number) => `${formatDate(at, ward.zone)} ${clock(at)}`;
  return (
    <section className={styles.earlier} aria-label="Earlier work-ups">
      <h2>Earlier work-ups</h2>
      <ol className={styles.done}>
        {workUps.map((workUp) => (
          <li key={workUp.id}>
            <span className="mono">{when(workUp.openedAt)}</span> <b>Effluent {appearanceWords(workUp.appearance)}</b>
            {workUp.closed &&
              `: ${CONCLUSION_WORDS[workUp.closed.conclusion]}, ${when(workUp.closed.at)}. ${workUp.closed.reason}. `}
            {countsOf(workUp).map(countWords).join('; ')}
          </li>
        ))}
      </ol>
    </section>
  );
};
